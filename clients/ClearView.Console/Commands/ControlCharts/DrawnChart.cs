using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Console.Rendering.Decisions;
using ClearView.Plotting.Decisions;
using ClearView.V1;

namespace ClearView.Console.Commands.ControlCharts;

/// <summary>Shows a drawn chart on the screen, as JSON and as a picture.</summary>
internal static class DrawnChart
{
    /// <summary>Puts the parts together: chart and summary of the first, points and stretches of all.</summary>
    public static async Task<DrawnControlChart> JoinAsync(IAsyncEnumerable<DrawnControlChart> parts)
    {
        var whole = new DrawnControlChart();
        await foreach (var part in parts)
        {
            whole.MergeFrom(part);
        }
        return whole;
    }

    /// <summary>Shows it.</summary>
    public static void Show(Screen screen, System.CommandLine.ParseResult parsed, DrawnControlChart drawn, JsonOption json, ChartFileOption picture, bool hasTimes = true)
    {
        if (json.IsGiven(parsed))
        {
            JsonText.Write(screen, JsonText.OfMessage(drawn)!);
        }
        else
        {
            ControlChartScreen.Write(screen, drawn, hasTimes);
        }
        picture.Write(screen, parsed, ("", () => ProcessChart.Build([drawn])));
    }
}

using System.CommandLine;
using System.Text.Json.Nodes;

using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Console.Rendering.Decisions;
using ClearView.V1;

namespace ClearView.Console.Commands.ControlCharts;

/// <summary>Lists stored control charts.</summary>
internal sealed class ControlChartsListCommand : DocumentedCommand
{
    private readonly Option<bool> _allVersions = new("--all-versions") { Description = "List every version instead of the newest." };
    private readonly ServerOption _server = new(isOptional: false);
    private readonly JsonOption _json = new();
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public ControlChartsListCommand(Screen screen)
        : base("list", "List stored control charts by name.",
        [
            "clearview control-charts list",
            "clearview control-charts list --all-versions --json",
        ])
    {
        _screen = screen;
        Add(_allVersions);
        _server.AddTo(this);
        _json.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var charts = new List<NamedControlChart>();
        await using var client = _server.Connect(parsed);
        await foreach (var chart in client.ListControlChartsAsync(parsed.GetValue(_allVersions), cancellation))
        {
            charts.Add(chart);
        }
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(_screen, new JsonObject { ["controlCharts"] = new JsonArray([.. charts.Select(JsonText.OfMessage)]) });
        }
        else
        {
            ControlChartScreen.WriteList(_screen, charts);
        }
        return ExitCode.Ok;
    }
}

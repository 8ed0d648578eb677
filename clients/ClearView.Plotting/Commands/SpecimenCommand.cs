using System.CommandLine;

using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;

namespace ClearView.Plotting.Commands;

/// <summary>Draws one chart for each reading.</summary>
internal abstract class SpecimenCommand(string name, string description, TimeProvider clock, IMethodChoice method, bool needsSpectra)
    : ChartCommand(name, description, clock, method, needsSpectra)
{
    private const int MostCharts = 50;

    /// <summary>The chart of one reading.</summary>
    protected abstract ChartModel Build(ParseResult parsed, ChartReading reading);

    protected override bool Draw(ParseResult parsed, IReadOnlyList<ChartReading> readings)
    {
        switch (readings.Count)
        {
            case 0:
                throw new ChartRefusedException("There is no reading to show. Widen the filters, or name files.");
            case > MostCharts:
                throw new ChartRefusedException(
                    $"{readings.Count} readings would be as many charts; at most {MostCharts} are drawn. Narrow the filters, or give --count or --id.");
            case 1:
                Output.Write(parsed, Build(parsed, readings[0]), Name);
                return true;
            default:
                for (int i = 0; i < readings.Count; i++)
                {
                    Output.Write(parsed, Build(parsed, readings[i]), Name, $"-{i + 1:00}-{readings[i].Specimen}");
                }

                return true;
        }
    }
}

using System.CommandLine;

using ClearView.Plotting.Charts;

namespace ClearView.Plotting.Commands;

/// <summary>Draws the light-barrier screen of bottle walls.</summary>
internal sealed class LightBarrierCommand(TimeProvider clock, IMethodChoice method) : ChartCommand("light-barrier", Text, clock, method, needsSpectra: true)
{
    private const string Text = """
        Total transmittance of bottle walls between 290 and 450 nm against the method's limit. A screen, no compendial test:
        release follows the applicable pharmacopoeia, local codes and qualified staff. The exit code is 1 where a wall is above.

        Examples:
          chart light-barrier amber.csv --method iso --light-barrier-limit 10
          chart light-barrier --product "amber bottle" --count 4
        """;

    protected override bool Draw(ParseResult parsed, IReadOnlyList<ChartReading> readings)
    {
        Output.Write(parsed, LightBarrierChart.Build(readings), Name);
        return readings.All(reading => reading.Evaluation.LightBarrier?.WithinLimit != false);
    }
}

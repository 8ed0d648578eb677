namespace ClearView.Console.Tests;

/// <summary>Screens of decisions and studies that need no server.</summary>
public class DecisionGoldenTests
{
    [Theory]
    [InlineData("help-specifications-store", "specifications store --help")]
    [InlineData("help-judge", "judge --help")]
    [InlineData("help-rejudge", "rejudge --help")]
    [InlineData("help-control-charts-draw", "control-charts draw --help")]
    [InlineData("help-control-charts-store", "control-charts store --help")]
    [InlineData("help-capability", "capability --help")]
    [InlineData("help-roll-map", "roll-map --help")]
    [InlineData("help-compare-lots", "compare-lots --help")]
    [InlineData("help-sampling-plan", "sampling plan --help")]
    [InlineData("judge", "judge Samples/film-total-diffuse.csv --specification Values/lidding-38.json")]
    [InlineData("judge-other-product", "judge Samples/bottles-wide.csv --specification Values/lidding-38.json")]
    [InlineData("judge-refused", "judge Samples/hazemeter.csv --override aperture_mm=0 --specification Values/lidding-38.json")]
    [InlineData("chart-individuals", "control-charts draw Values/line-3.csv --measurand haze --kind individuals --baseline 1..40")]
    [InlineData("chart-averages", "control-charts draw Values/line-3.csv --measurand haze --kind averages-range --subgroup 4 --baseline 2026-03-02T06:00:00Z..2026-03-02T15:00:00Z")]
    [InlineData("chart-cusum", "control-charts draw Values/line-3.csv --measurand haze --kind cusum --known 1.62,0.08 --phase \"new die@2026-03-02T16:30:00Z=known 1.75,0.08\"")]
    [InlineData("chart-ewma-untimed", "control-charts draw Values/roll-14.csv --measurand haze --kind ewma --ewma 0.1,2.7 --baseline 1..160")]
    [InlineData("capability", "capability Values/line-3.csv --measurand haze --lower 1 --upper 2.2 --target 1.6 --before 2026-03-02T15:00:00Z")]
    [InlineData("capability-unstable", "capability Values/line-3.csv --measurand haze --upper 3")]
    [InlineData("capability-percentiles", "capability Values/line-3.csv --measurand haze --upper 3 --model percentiles --even-if-unstable --roll 14")]
    [InlineData("roll-map", "roll-map Values/roll-14.csv --measurand haze --upper 2 --least-streak 0.1")]
    [InlineData("roll-map-without-limits", "roll-map Values/roll-14.csv --measurand haze --lanes 4 --blocks 3")]
    [InlineData("compare-lots", "compare-lots Values/lots.csv --measurand haze --margin haze=0.2,0.05")]
    [InlineData("compare-lots-two", "compare-lots Values/lots.csv --measurand yellowness_index_e313 --lot R-2201 --lot R-2203")]
    [InlineData("sampling-mean", "sampling mean --standard-deviation 0.15 --half-width 0.1")]
    [InlineData("sampling-plan", "sampling plan --acceptable 1 --rejectable 6")]
    [InlineData("fault-baseline", "control-charts draw Values/line-3.csv --measurand haze --kind individuals --baseline 1..90")]
    [InlineData("fault-margin", "compare-lots Values/lots.csv --measurand haze --margin hase=0.2")]
    [InlineData("fault-places", "roll-map Values/line-3.csv --measurand haze")]
    public async Task Screen_IsTheOneThatWasLookedAt(string name, string arguments)
    {
        var run = await ConsoleRun.RunAsync(arguments);
        var text = run.ToString();

        Assert.DoesNotContain('\u001b', text);
        Assert.DoesNotContain('…', text);
        Assert.All(run.Output.Split('\n'), line => Assert.True(line.Length <= 100, line));
        Assert.All(text.Split('\n'), line => Assert.Equal(line.TrimEnd(), line));
        GoldenFile.Check(name, text);
    }
}

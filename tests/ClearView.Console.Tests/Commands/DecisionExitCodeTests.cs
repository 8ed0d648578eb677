namespace ClearView.Console.Tests.Commands;

public class DecisionExitCodeTests
{
    private const string Judge = "judge Samples/film-total-diffuse.csv --specification ";
    private const string Draw = "control-charts draw Values/line-3.csv --measurand haze ";
    private const string Store = "specifications store s --description x --by QA ";
    private const string Whole = Store + "--product p --kind film --method astm --specimens 3 --rule simple --limit \"haze<=3\" ";

    [Theory]
    [InlineData(0, "sampling mean --standard-deviation 0.15 --half-width 0.1")]
    [InlineData(0, "compare-lots Values/lots.csv --measurand haze --json")]
    // A chart with signals was drawn as it was asked.
    [InlineData(0, Draw + "--kind individuals --baseline 1..40")]
    // Not stable: there are no indices.
    [InlineData(1, "capability Values/line-3.csv --measurand haze --upper 3")]
    [InlineData(1, "roll-map Values/roll-14.csv --measurand haze --upper 2")]
    [InlineData(0, "roll-map Values/roll-14.csv --measurand haze --upper 2 --largest-share 5")]
    [InlineData(1, Judge + "Values/lidding-38.json")]
    [InlineData(2, Judge + "Values/nothing.json")]
    [InlineData(2, Judge + "Values/lots.csv")]
    [InlineData(2, "judge Samples/nothing.csv --specification Values/lidding-38.json")]
    [InlineData(2, "capability Values/line-3.csv --measurand haze")]
    [InlineData(2, "capability Values/line-3.csv --measurand hase --upper 3")]
    [InlineData(2, "capability Values/line-3.csv --measurand haze --lower 3 --upper 1")]
    [InlineData(2, "capability Values/line-3.csv --measurand haze --upper 3 --roll 99")]
    [InlineData(2, "capability Values/line-3.csv --measurand haze --specification s")]
    [InlineData(2, "capability Values/line-3.csv --measurand cielab_b --upper 3")]
    [InlineData(2, "capability Values/nothing.csv --measurand haze --upper 3")]
    [InlineData(2, "capability Values/line-3.csv --measurand haze --upper 3 --before 2026-03-02T15:00:00Z --chart picture.jpg")]
    [InlineData(2, "compare-lots --lot A --measurand haze")]
    [InlineData(2, "compare-lots Values/line-3.csv --measurand haze")]
    [InlineData(2, "compare-lots Values/lots.csv --measurand haze --lot R-2201 --lot R-9999")]
    [InlineData(2, "compare-lots Values/lots.csv --measurand haze --confidence 50")]
    [InlineData(2, "sampling plan --acceptable 6 --rejectable 1")]
    // Files are posted without an outbox.
    [InlineData(2, "post Samples/film-total-diffuse.csv --method astm --outbox x")]
    [InlineData(2, "sampling equivalence --standard-deviation 0.15 --margin 0.2 --difference 0.3")]
    [InlineData(2, Draw + "--kind averages-range --baseline 1..40")]
    [InlineData(2, Draw + "--kind individuals --subgroup 5 --baseline 1..40")]
    [InlineData(2, Draw + "--kind individuals")]
    [InlineData(2, Draw + "--kind individuals --baseline 1..40 --known 1.6,0.1")]
    [InlineData(2, Draw + "--kind individuals --baseline 40..1")]
    [InlineData(2, Draw + "--kind individuals --baseline 1..40 --ewma 0.2,3")]
    [InlineData(2, Draw + "--kind individuals --baseline 1..40 --patterns runs")]
    [InlineData(2, Draw + "--kind individuals --baseline 1..40 --phase die=1")]
    [InlineData(2, "control-charts draw Values/lots.csv --measurand haze --kind averages-range --subgroup roll --baseline 1..9")]
    [InlineData(2, "control-charts store c --measurand haze --kind ewma --baseline 1..25 --description x --by QA")]
    [InlineData(2, "control-charts show C")]
    [InlineData(2, Store)]
    [InlineData(2, Whole + "--limit \"haze 1..2\"")]
    [InlineData(2, Whole + "--limit \"luminous_transmittance 92..90\"")]
    [InlineData(2, Whole + "--limit \"luminous_transmittance 90..92 target 95\"")]
    [InlineData(2, Whole + "--reference master")]
    [InlineData(2, Whole + "--file Values/lidding-38.json")]
    [InlineData(2, "specifications store S@1 --file Values/lidding-38.json --description x --by QA")]
    [InlineData(2, "specifications show S")]
    [InlineData(2, "references store m not-an-id --description x --by QA")]
    [InlineData(2, "rejudge --specification s --by-lot --by-roll")]
    [InlineData(2, "post Samples --specification s --method astm")]
    // Port 1 of the loopback is never served here.
    [InlineData(3, Whole + "--server 127.0.0.1:1")]
    [InlineData(3, "specifications list --server 127.0.0.1:1")]
    [InlineData(3, "references list --server 127.0.0.1:1")]
    [InlineData(3, "control-charts show c --server 127.0.0.1:1")]
    [InlineData(3, "rejudge --specification s --server 127.0.0.1:1")]
    [InlineData(3, "roll-map --measurand haze --roll 14 --server 127.0.0.1:1")]
    [InlineData(3, "capability --measurand haze --upper 3 --server 127.0.0.1:1")]
    [InlineData(3, "compare-lots --lot A --lot B --measurand haze --server 127.0.0.1:1")]
    [InlineData(3, "sampling mean --standard-deviation 1 --half-width 1 --server 127.0.0.1:1")]
    public async Task ExitCode_TellsWhatHappened(int expected, string arguments)
    {
        var run = await ConsoleRun.RunAsync(arguments);

        Assert.True(expected == run.ExitCode, $"{run.ExitCode} instead of {expected}: {run.Output}{run.Errors}");
        Assert.Equal(expected >= 2, run.Errors.Contains("error:", StringComparison.Ordinal));
    }
}

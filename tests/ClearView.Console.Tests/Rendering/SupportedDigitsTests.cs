using ClearView.Console.Rendering;
using ClearView.Optics.Uncertainty;
using ClearView.V1;

namespace ClearView.Console.Tests.Rendering;

/// <summary>Screens round a value and its uncertainty by the one rule (JCGM 100, 7.2.6).</summary>
public class SupportedDigitsTests
{
    [Theory]
    [InlineData(1.2384, 0.0996)]
    [InlineData(91.5877, 0.123)]
    [InlineData(0.31411, 0.000204)]
    [InlineData(563.61, 12.4)]
    [InlineData(-0.1049, 0.0351)]
    [InlineData(136.08, 0.95)]
    public void ValueAndUncertainty_AreRoundedByTheRule(double value, double expanded)
    {
        var measured = new MeasuredValue { Measurand = "haze", Value = value, Unit = "%", Uncertainty = new Uncertainty { ExpandedUncertainty = expanded } };

        Assert.Equal(UncertaintyRounding.Format(value, expanded), $"{NumberText.Of(measured)} {NumberText.Expanded(measured)}");
    }

    [Fact]
    public async Task Screen_ShowsWhatTheRuleGives()
    {
        const string Line = "evaluate Samples/film-total-diffuse.csv --method astm --uncertainty repeatability=0.05,zero=0.02,drift=0.1 --coverage 95";
        // The table keeps value and uncertainty in columns, with more than one blank between.
        var screen = System.Text.RegularExpressions.Regex.Replace((await ConsoleRun.RunAsync(Line)).Output, " +", " ");
        var values = System.Text.Json.Nodes.JsonNode.Parse((await ConsoleRun.RunAsync($"{Line} --json")).Output)!["specimens"]![0]!["evaluation"]!["values"]!.AsArray();

        var known = values.Where(value => value!["uncertainty"] is not null && (double)value["uncertainty"]!["expandedUncertainty"]! > 0).ToList();

        Assert.True(known.Count > 10);
        Assert.All(known, value => Assert.Contains(
            System.Text.RegularExpressions.Regex.Replace(
                UncertaintyRounding.Format((double)value!["value"]!, (double)value["uncertainty"]!["expandedUncertainty"]!), "^-(0(\\.0+)? ±)", "$1"),
            screen,
            StringComparison.Ordinal));
    }
}

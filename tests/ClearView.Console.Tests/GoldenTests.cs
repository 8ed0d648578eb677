namespace ClearView.Console.Tests;

/// <summary>Screens that need no server.</summary>
public class GoldenTests
{
    [Theory]
    [InlineData("help", "--help")]
    [InlineData("help-evaluate", "evaluate --help")]
    [InlineData("help-post", "post --help")]
    [InlineData("help-list", "list --help")]
    [InlineData("help-watch", "watch --help")]
    [InlineData("help-show", "show --help")]
    [InlineData("help-serve", "serve --help")]
    [InlineData("help-demo", "demo --help")]
    [InlineData("help-audit-verify", "audit verify --help")]
    [InlineData("help-audit-extract", "audit extract --help")]
    [InlineData("help-correct", "correct --help")]
    [InlineData("help-records-retire", "records retire --help")]
    [InlineData("evaluate-folder", "evaluate Samples --method astm")]
    [InlineData("evaluate-folder-limits", "evaluate Samples --method iso --limit \"haze<=2.0\" --limit \"luminous_transmittance>=90\" --limit \"yellowness_index_e313<=1\"")]
    [InlineData("evaluate-one", "evaluate Samples/film-total-diffuse.csv --method astm")]
    [InlineData("evaluate-one-limits", "evaluate Samples/film-total-diffuse.csv --method astm --yellowness e313,d1925 --limit \"haze<=1.2\" --limit \"luminous_transmittance>=90\"")]
    [InlineData("evaluate-hazemeter", "evaluate Samples/hazemeter.csv --method astm-hazemeter --limit \"haze<=2.0\"")]
    [InlineData("evaluate-json", "evaluate Samples/hazemeter.csv --method astm-hazemeter --limit \"haze<=2.0\" --json")]
    [InlineData("evaluate-full", "evaluate Samples/film-total-diffuse.csv --method astm --reference 97,-0.1,0.1 --band 400-450 --thickness 100 --resin pet --uncertainty repeatability=0.05,zero=0.02,drift=0.1,wavelength=0.2 --monte-carlo 7")]
    [InlineData("evaluate-mean", "evaluate Samples/bottles-wide.csv --method astm --uncertainty repeatability=0.05,zero=0.02 --mean")]
    [InlineData("methods-list", "methods list")]
    [InlineData("methods-show", "methods show astm")]
    [InlineData("catalogue-resins", "catalogue resins")]
    [InlineData("catalogue-bands", "catalogue bands")]
    [InlineData("catalogue-illuminants", "catalogue illuminants")]
    [InlineData("catalogue-measurands", "catalogue measurands")]
    [InlineData("help-methods-store", "methods store --help")]
    [InlineData("fault-no-method", "evaluate Samples/hazemeter.csv")]
    [InlineData("fault-limit", "evaluate Samples/hazemeter.csv --method astm --limit \"hase<=2\" --limit haze=2")]
    [InlineData("fault-file", "evaluate Samples/nothing.csv clearview.deps.json --method astm")]
    [InlineData("fault-range", "evaluate Samples/hazemeter.csv --method astm-hazemeter --override aperture_mm=0")]
    [InlineData("fault-unknown-command", "evalute Samples")]
    public async Task Screen_IsTheOneThatWasLookedAt(string name, string arguments)
    {
        var run = await ConsoleRun.RunAsync(arguments);
        var text = run.ToString();

        Assert.DoesNotContain('\u001b', text);
        Assert.DoesNotContain('…', text);
        // The command line itself may be longer; a line of JSON is for scripts.
        Assert.All(run.Output.Split('\n').Where(_ => !arguments.Contains("--json", StringComparison.Ordinal)), line => Assert.True(line.Length <= 100, line));
        Assert.All(text.Split('\n'), line => Assert.Equal(line.TrimEnd(), line));
        GoldenFile.Check(name, text);
    }
}

namespace ClearView.Console.Tests.Commands;

public class ExitCodeTests
{
    private const string Film = "evaluate Samples/film-total-diffuse.csv";

    [Theory]
    [InlineData(0, Film + " --method astm")]
    [InlineData(0, Film + " --method astm --limit \"haze<=2\"")]
    [InlineData(0, Film + " --haze-standard iso-14782-13468-1 --luminous d65/2 --colour D65/10°")]
    [InlineData(1, Film + " --method astm --limit \"haze<=1\"")]
    [InlineData(1, Film + " --method astm --limit \"haze>=1\" --limit \"cielab_l>=99\"")]
    // A limit on what was not measured cannot be kept.
    [InlineData(1, "evaluate Samples/hazemeter.csv --method astm --limit \"cielab_b<=1\"")]
    [InlineData(2, Film)]
    [InlineData(2, Film + " --haze-standard astm-d1003-b --luminous C/2")]
    [InlineData(2, Film + " --method astm --limit haze")]
    [InlineData(2, Film + " --method bogus")]
    [InlineData(2, Film + " --method astm --colour D65")]
    [InlineData(2, Film + " --method astm --colour D93/2")]
    [InlineData(2, Film + " --method astm --yellowness e313,e313")]
    [InlineData(2, Film + " --method astm --set nothing=1")]
    [InlineData(2, Film + " --method astm --unit fraction")]
    [InlineData(2, Film + " --method astm --server \"not an address\"")]
    [InlineData(2, "evaluate --method astm")]
    [InlineData(2, "evaluate no-such-folder --method astm")]
    [InlineData(2, "")]
    [InlineData(2, "bogus")]
    [InlineData(2, "show not-an-id")]
    [InlineData(2, "list --count 0")]
    [InlineData(2, "list --from 02/03/2026")]
    // E313 has no coefficients for illuminant A, so that the method itself is refused.
    [InlineData(2, Film + " --method astm --colour A/2")]
    // Port 1 of the loopback is never served here.
    [InlineData(3, Film + " --method astm --server 127.0.0.1:1")]
    [InlineData(3, "post Samples/hazemeter.csv --method astm --server 127.0.0.1:1")]
    [InlineData(3, "list --server 127.0.0.1:1")]
    [InlineData(3, "show 019cae1a-7d20-7c1e-9b1a-5b8f0a6f3c11 --server http://127.0.0.1:1")]
    public async Task ExitCode_TellsWhatHappened(int expected, string arguments)
    {
        var run = await ConsoleRun.RunAsync(arguments);

        Assert.True(expected == run.ExitCode, $"{run.ExitCode} instead of {expected}: {run.Output}{run.Errors}");
        Assert.Equal(expected >= 2, run.Errors.Contains("error:", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Post_OneFileOfSeveralCannotBeRead_PostsNothing()
    {
        var run = await ConsoleRun.RunAsync("post Samples/hazemeter.csv clearview.deps.json --method astm --server 127.0.0.1:1");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains("nothing was posted, because 1 file cannot be read", run.Errors, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Samples", "Samples")]
    [InlineData("Samples", "Samples/")]
    [InlineData("Samples", "Samples/done")]
    [InlineData("Samples/../Samples", "./Samples/done/old")]
    public async Task Post_DoneLiesInTheFollowedFolder_IsRefusedAndSaysWhatWouldBeRight(string follow, string done)
    {
        var run = await ConsoleRun.RunAsync($"post --follow {follow} --done {done} --method astm --outbox no-outbox --server 127.0.0.1:1");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains("--done", run.Errors, StringComparison.Ordinal);
        Assert.Contains("give a folder outside of it", string.Join(' ', run.Errors.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
        Assert.False(Directory.Exists("no-outbox"));
    }
}

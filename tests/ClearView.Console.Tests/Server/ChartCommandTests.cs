namespace ClearView.Console.Tests.Server;

/// <summary>Charts of readings that a real server holds.</summary>
public sealed class ChartCommandTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-chart-tests-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Theory]
    [InlineData("spectral --specimen F-0012", "spectral")]
    [InlineData("colour --specimen F-0012", "colour")]
    [InlineData("chromaticity --specimen F-0012", "chromaticity")]
    [InlineData("run --measurand haze --max 3 --specimen F-0012", "run")]
    public async Task Chart_OfStoredReadings_IsWrittenInBothFormats(string chart, string kind)
    {
        await using var server = await ServerSession.StartAsync();
        await server.RunAsync("post Samples --method astm");

        var run = await server.RunAsync($"chart {chart} --out \"{_folder.FullName}\" --name {kind}");

        Assert.Equal("", run.Errors);
        Assert.Equal(0, run.ExitCode);
        Assert.Contains(_folder.GetFiles("*.png"), file => file.Length > 1000);
        Assert.Contains(_folder.GetFiles("*.svg"), file => file.Length > 1000);
    }

    [Fact]
    public async Task Chart_WhereNothingMatches_SaysSo()
    {
        await using var server = await ServerSession.StartAsync();

        var run = await server.RunAsync($"chart colour --roll none --out \"{_folder.FullName}\"");

        Assert.Equal(2, run.ExitCode);
        Assert.NotEmpty(run.Errors);
        Assert.Empty(_folder.GetFiles());
    }
}

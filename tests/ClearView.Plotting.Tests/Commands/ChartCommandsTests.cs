using System.CommandLine;

using ClearView.Plotting.Commands;

namespace ClearView.Plotting.Tests.Commands;

public sealed class ChartCommandsTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("clearview-chart-commands").FullName;

    [Fact]
    public async Task Spectral_File_WritesBothFormatsAndSaysWhere()
    {
        (int code, string output, string errors) = await RunAsync(["spectral", ScanFile("film.csv"), .. Given, "--method", "astm", "--out", _folder]);

        Assert.Equal("", errors);
        Assert.Equal(0, code);
        Assert.Equal([Path.Combine(_folder, "spectral.png"), Path.Combine(_folder, "spectral.svg")], output.Split('\n', StringSplitOptions.RemoveEmptyEntries));
        Assert.All(output.Split('\n', StringSplitOptions.RemoveEmptyEntries), path => Assert.True(new FileInfo(path).Length > 1000));
    }

    [Theory]
    [InlineData("colour")]
    [InlineData("chromaticity")]
    public async Task Colour_File_WritesTheNamedFormat(string chart)
    {
        (int code, _, string errors) = await RunAsync(
            [chart, ScanFile("film.csv"), .. Given, "--method", "iso", "--out", _folder, "--name", "mine", "--format", "svg"]);

        Assert.Equal("", errors);
        Assert.Equal(0, code);
        Assert.True(File.Exists(Path.Combine(_folder, "mine.svg")));
        Assert.False(File.Exists(Path.Combine(_folder, "mine.png")));
    }

    [Theory]
    [InlineData("3", 0)]
    [InlineData("1", 1)]
    public async Task Run_Limit_DecidesTheExitCode(string maximum, int expected)
    {
        // The file's haze is 100 × 2 / 90 = 2.2 %.
        (int code, _, string errors) = await RunAsync(["run", ScanFile("film.csv"), .. Given, "--method", "astm", "--max", maximum, "--out", _folder]);

        Assert.Equal("", errors);
        Assert.Equal(expected, code);
    }

    [Fact]
    public async Task Run_LimitsCrossed_IsBadInput()
    {
        (int code, _, string errors) = await RunAsync(["run", ScanFile("film.csv"), .. Given, "--method", "astm", "--min", "3", "--max", "1"]);

        Assert.Equal(2, code);
        Assert.Contains("--min 3 is above --max 1", errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Spectral_FileWithoutMethod_IsBadInput()
    {
        (int code, _, string errors) = await RunAsync(["spectral", ScanFile("film.csv"), .. Given]);

        Assert.Equal(2, code);
        Assert.Contains("--method", errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Spectral_MissingFile_IsBadInput()
    {
        (int code, _, string errors) = await RunAsync(["spectral", Path.Combine(_folder, "none.csv"), "--method", "astm"]);

        Assert.Equal(2, code);
        Assert.Contains("none.csv", errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_ServerThatIsNotThere_IsAServerFault()
    {
        // Port 1 of the loopback refuses at once.
        (int code, _, string errors) = await RunAsync(["run", "--server", "127.0.0.1:1"]);

        Assert.Equal(3, code);
        Assert.Contains("127.0.0.1:1", errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_AddressThatIsNone_IsBadInput()
    {
        (int code, _, string errors) = await RunAsync(["run", "--server", "ftp://somewhere"]);

        Assert.Equal(2, code);
        Assert.Contains("not a server's address", errors, StringComparison.Ordinal);
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static readonly string[] Given =
    [
        "--set", "instrument=sphere 1", "--set", "aperture_mm=25", "--set", "uv_filter=none", "--set", "geometry=0:d",
        "--set", "operator=tester", "--set", "specimen=S1", "--set", "measured_at=2026-03-03T06:00:00Z",
    ];

    private static async Task<(int Code, string Output, string Errors)> RunAsync(string[] arguments)
    {
        using var output = new StringWriter();
        using var errors = new StringWriter();
        int code = await ChartCommands.Create(TimeProvider.System).Parse(arguments).InvokeAsync(
            new InvocationConfiguration { Output = output, Error = errors }, TestContext.Current.CancellationToken);
        return (code, output.ToString().ReplaceLineEndings("\n"), errors.ToString());
    }

    private string ScanFile(string name)
    {
        string path = Path.Combine(_folder, name);
        IEnumerable<string> rows = Enumerable.Range(0, 41).Select(i => $"{380 + (10 * i)},90,2");
        File.WriteAllLines(path, ["wavelength (nm),total (%),diffuse (%)", .. rows]);
        return path;
    }
}

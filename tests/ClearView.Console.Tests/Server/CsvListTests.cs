using System.Text.Json.Nodes;

using ClearView.Client.Files;

namespace ClearView.Console.Tests.Server;

/// <summary>A list as CSV.</summary>
public sealed class CsvListTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-csv-tests-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task List_Csv_IsATableOfValuesInFullPrecision()
    {
        await using var server = await ServerSession.StartAsync();
        await server.RunAsync("post Samples --method astm");
        var readings = JsonNode.Parse((await server.RunAsync("list --json")).Output)!["readings"]!.AsArray().Select(one => one!["reading"]!).ToList();

        var table = ValueTableReader.Read(await WriteAsync(await server.RunAsync("list --csv")), new ValueTableOptions());

        Assert.NotEmpty(readings);
        Assert.Equal(
            readings.Select(reading => ((string?)reading["measurement"]!["identification"]!["specimen"] ?? "", Value(reading, "haze"))),
            table.Rows.Select(row => (row.Specimen, row.Values.TryGetValue("haze", out var haze) ? haze : (double?)null)));
    }

    [Fact]
    public async Task List_CsvOfATextThatBeginsLikeAFormula_MarksItAsText()
    {
        await using var server = await ServerSession.StartAsync();
        await server.RunAsync("post Samples/film-total-diffuse.csv --method astm --override lot=\"=2+5\"");

        var run = await server.RunAsync("list --csv");

        Assert.Contains(",'=2+5,", run.Output, StringComparison.Ordinal);
        Assert.DoesNotContain(",=2+5,", run.Output, StringComparison.Ordinal);
    }

    private static double? Value(JsonNode reading, string measurand) => (double?)reading["evaluation"]!["values"]!.AsArray()
        .FirstOrDefault(value => (string)value!["measurand"]! == measurand)?["value"];

    private async Task<string> WriteAsync(ConsoleRun run)
    {
        Assert.Equal(0, run.ExitCode);
        var path = Path.Combine(_folder.FullName, "readings.csv");
        await File.WriteAllTextAsync(path, run.Output, TestContext.Current.CancellationToken);
        return path;
    }
}

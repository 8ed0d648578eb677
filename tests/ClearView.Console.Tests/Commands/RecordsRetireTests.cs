using System.Text.Json.Nodes;

using ClearView.Records.Model;
using ClearView.Records.Postgres;
using ClearView.Records.Tests.Postgres;

namespace ClearView.Console.Tests.Commands;

/// <summary>Months that the console retires from a database.</summary>
public sealed class RecordsRetireTests(PostgresCluster cluster) : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("clearview-retire-tests-").FullName;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task Retire_ExportsTheMonths_AndBothVerificationsHold()
    {
        var connection = cluster.CreateDatabase();
        await using (var store = await PostgresStore.OpenAsync(connection, TimeProvider.System, Token))
        {
            foreach (var month in new[] { 11, 11, 12 })
            {
                await store.Readings.AppendAsync(Entry(new DateTimeOffset(2024, month, 20, 6, 0, 0, TimeSpan.Zero)), Token);
            }
        }

        var database = "\"postgres:" + connection + "\"";
        var text = await ConsoleRun.RunAsync($"records retire --store {database} --before 2024-12 --out \"{_folder}\" --person \"E. Marsh\"");
        var json = await ConsoleRun.RunAsync($"records retire --store {database} --before 2025-01 --out \"{_folder}\" --json");
        var nothing = await ConsoleRun.RunAsync($"records retire --store {database} --before 2025-01 --out \"{_folder}\"");
        var ofStore = await ConsoleRun.RunAsync($"audit verify --store {database}");
        var ofExport = await ConsoleRun.RunAsync($"audit verify --store \"{Path.Combine(_folder, "readings-2024-11.db")}\"");

        Assert.Equal([0, 0, 0, 0, 0], new[] { text, json, nothing, ofStore, ofExport }.Select(run => run.ExitCode));
        Assert.Contains("2024-11: 2 readings, 0 values of series exported to readings-2024-11.db, compared, and retired.", text.Output, StringComparison.Ordinal);
        var retired = Assert.Single(JsonNode.Parse(json.Output)!["retired"]!.AsArray());
        Assert.Equal(("2024-12", 1, "readings-2024-12.db"), ((string)retired!["month"]!, (int)retired["readings"]!, (string)retired["exportFile"]!));
        Assert.Contains("nothing was retired", nothing.Output, StringComparison.Ordinal);
        Assert.Contains("Retired      3 readings", ofStore.Output, StringComparison.Ordinal);
        Assert.Contains("Export of    2024-11", ofExport.Output, StringComparison.Ordinal);
        Assert.Contains(text.Output.Split("rows: ")[1].Trim(), ofExport.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--store line3.db --before 2025-01 --out .", "from a database only")]
    [InlineData("--store postgres://clearview@127.0.0.1:1/line3 --before 2025-13 --out .", "expected a month")]
    [InlineData("--store postgres://clearview@127.0.0.1:1/line3 --before 2025-01 --out nowhere", "nowhere does not exist")]
    public async Task Retire_WithAWrongArgument_SaysWhich(string arguments, string expected)
    {
        var run = await ConsoleRun.RunAsync("records retire " + arguments);

        Assert.Equal(2, run.ExitCode);
        Assert.Contains(expected, run.Errors, StringComparison.Ordinal);
    }

    private static ReadingEntry Entry(DateTimeOffset measuredAt) => new()
    {
        Id = Guid.CreateVersion7(),
        MeasuredAt = measuredAt,
        Line = "line 1",
        Measurement = new byte[] { 1 },
        Method = new byte[] { 2 },
        Evaluation = new byte[] { 3 },
        SoftwareVersion = "0.1.0",
    };
}

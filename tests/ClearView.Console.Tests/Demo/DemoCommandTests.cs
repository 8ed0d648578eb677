using System.Text.Json;

using ClearView.Console.Demo.Scenario;

namespace ClearView.Console.Tests.Demo;

/// <summary>The demonstration, with its real server on a real socket.</summary>
public sealed class DemoCommandTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-demo-test-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Demo_PostsBothSets_FindsTheBadRollAndDrawsTheCharts()
    {
        var charts = Path.Combine(_folder.FullName, "charts");

        var run = await ConsoleRun.RunAsync($"demo --json --output \"{charts}\"");

        Assert.Equal("", run.Errors);
        Assert.Equal(0, run.ExitCode);
        using var document = JsonDocument.Parse(run.Output);
        Assert.Equal(288, document.RootElement.GetProperty("filmReadings").GetInt32());
        Assert.Equal(48, document.RootElement.GetProperty("bottleReadings").GetInt32());
        var failing = document.RootElement.GetProperty("failing");
        Assert.Equal(FilmShift.ReadingsPerRoll, failing.GetArrayLength());
        Assert.Contains(FilmShift.RollName(FilmShift.BadRollIndex), failing[0].GetRawText(), StringComparison.Ordinal);
        Assert.Equal(44, Directory.GetFiles(charts).Length);
        AssertDecisions(document.RootElement);
    }

    // What was put into the invented data comes out: a shift that drifts, a roll beyond its limit, two lots alike and one apart.
    private static void AssertDecisions(JsonElement demo)
    {
        Assert.Contains(demo.GetProperty("signals").EnumerateArray(), signal => signal.GetProperty("pattern").GetString() == "CONTROL_PATTERN_BEYOND_LIMITS");
        Assert.DoesNotContain(demo.GetProperty("signals").EnumerateArray(), signal => signal.GetProperty("revised").GetBoolean());
        Assert.Contains("not stable", demo.GetProperty("capability").GetProperty("refusal").GetString(), StringComparison.Ordinal);
        Assert.Equal("VERDICT_OUTCOME_NON_CONFORMITY", demo.GetProperty("rollMap").GetProperty("outcome").GetString());
        Assert.Equal("VERDICT_OUTCOME_NON_CONFORMITY", demo.GetProperty("bottle").GetProperty("verdict").GetProperty("outcome").GetString());
        var pairs = demo.GetProperty("lots").GetProperty("comparisons")[0].GetProperty("pairs").EnumerateArray().ToList();
        Assert.Equal([true, false, false], pairs.Select(pair => pair.GetProperty("equivalent").GetBoolean()));
    }

    [Fact]
    public async Task Demo_OnScreen_IsReadableAndSaysWhereTheChartsAre()
    {
        var charts = Path.Combine(_folder.FullName, "charts");

        var run = await ConsoleRun.RunAsync($"demo --output \"{charts}\"");

        Assert.Equal(0, run.ExitCode);
        Assert.Contains($"{FilmShift.RollName(FilmShift.BadRollIndex)}         24", run.Output, StringComparison.Ordinal);
        Assert.Contains("Failing specimens: 24 specimens", run.Output, StringComparison.Ordinal);
        Assert.Contains("✗ above limit: greatest", run.Output, StringComparison.Ordinal);
        Assert.Contains("± is the expanded uncertainty", run.Output, StringComparison.Ordinal);
        Assert.Contains("applicable pharmacopoeia", run.Output, StringComparison.Ordinal);
        Assert.Contains(charts, run.Output, StringComparison.Ordinal);
        Assert.DoesNotContain('…', run.Output);
        Assert.All(run.Output.Split('\n').Where(line => !line.Contains(charts, StringComparison.Ordinal)), line => Assert.True(line.Length <= 100, line));
    }

    [Fact]
    public async Task Demo_WhoseStoreIsKept_CanBeServed_AndIsNeverOverwritten()
    {
        var store = Path.Combine(_folder.FullName, "kept.db");

        var first = await ConsoleRun.RunAsync($"demo --json --store \"{store}\"");
        var again = await ConsoleRun.RunAsync($"demo --json --store \"{store}\"");

        Assert.Equal(0, first.ExitCode);
        Assert.True(new FileInfo(store).Length > 0);
        Assert.Equal(2, again.ExitCode);
        Assert.Contains("exists already", again.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Demo_WhereChartsCannotBeWritten_SaysSo()
    {
        var file = Path.Combine(_folder.FullName, "a-file");
        await File.WriteAllTextAsync(file, "", TestContext.Current.CancellationToken);

        var run = await ConsoleRun.RunAsync($"demo --output \"{file}\"");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains("--output", run.Errors, StringComparison.Ordinal);
    }
}

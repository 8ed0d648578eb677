using System.CommandLine;

using ClearView.Plotting.Commands;
using ClearView.Plotting.Tests.Decisions;
using ClearView.V1;

using Google.Protobuf;

namespace ClearView.Plotting.Tests.Commands;

public sealed class DecisionCommandTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("clearview-decisions").FullName;

    public static TheoryData<string, string> Answers => new()
    {
        { JsonFormatter.Default.Format(new EstimateCapabilityResponse { Capability = SampleCapabilities.Refused() }), "Capability: haze" },
        { JsonFormatter.Default.Format(new MapRollResponse { RollMap = SampleRolls.Map() }), "Roll map: haze" },
        { JsonFormatter.Default.Format(new CompareLotsResponse { Comparisons = { SampleLots.Comparison() } }), "Comparison of lots: haze" },
        { JsonFormatter.Default.Format(new PlanSamplingResponse { AcceptancePlan = SamplePlans.Plan() }), "Operating characteristic of an acceptance plan" },
        { JsonFormatter.Default.Format(new JudgeSpecimensResponse { Verdict = SampleVerdicts.Certificate() }), "Verdict: non-conformity" },
        { $"[{string.Join(",", SampleControlCharts.Cusum().Select(part => JsonFormatter.Default.Format(part)))}]", "Control chart of haze: cumulative sums" },
        { $"[{string.Join(",", SampleControlCharts.Ewma().Select(part => JsonFormatter.Default.Format(new GetControlChartResponse { Part = part })))}]", "Control chart of haze: exponentially weighted moving average" },
        {
            new JsonFormatter(JsonFormatter.Settings.Default.WithPreserveProtoFieldNames(true)).Format(new MapRollResponse { RollMap = SampleRolls.Map() }),
            "Roll map: haze"
        },
    };

    [Theory]
    [MemberData(nameof(Answers))]
    public async Task Decision_AnAnswer_IsDrawnAsItsKeysSay(string json, string title)
    {
        string output = Path.Combine(_folder, "new", "chart.svg");
        (int code, string printed, string errors) = await RunAsync(Write(json), output);

        Assert.Equal("", errors);
        Assert.Equal(0, code);
        Assert.Equal(output, printed.Trim());
        Assert.Contains($"<title>{title}</title>", await File.ReadAllTextAsync(output, TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Decision_SeveralComparisons_WritesOneChartEach()
    {
        LotComparison second = SampleLots.Comparison();
        second.Measurand = "cielab_b";
        string json = JsonFormatter.Default.Format(new CompareLotsResponse { Comparisons = { SampleLots.Comparison(), second } });
        (int code, _, string errors) = await RunAsync(Write(json), Path.Combine(_folder, "lots.png"));

        Assert.Equal("", errors);
        Assert.Equal(0, code);
        Assert.True(File.Exists(Path.Combine(_folder, "lots-haze.png")));
        Assert.True(File.Exists(Path.Combine(_folder, "lots-cielab_b.png")));
    }

    [Theory]
    [InlineData("{", "is not JSON")]
    [InlineData("3", "neither an object nor an array")]
    [InlineData("{}", "an object without keys")]
    [InlineData("{\"readings\": []}", "the keys readings")]
    [InlineData("[1]", "something else than objects")]
    [InlineData("[]", "first part")]
    [InlineData("{\"comparisons\": []}", "no comparison")]
    [InlineData("{\"specimenCount\": 12, \"conclusion\": \"12 specimens.\"}", "without an acceptance plan")]
    [InlineData("{\"capability\": {\"no_such_field\": 1}}", "does not fit")]
    [InlineData("{\"rollMap\": {\"laneCount\": \"many\"}}", "does not fit")]
    public async Task Decision_WhatCannotBeDrawn_IsBadInputWithTheReason(string json, string reason)
    {
        (int code, _, string errors) = await RunAsync(Write(json), Path.Combine(_folder, "chart.png"));

        Assert.Equal(2, code);
        Assert.Contains(reason, errors, StringComparison.Ordinal);
        Assert.False(File.Exists(Path.Combine(_folder, "chart.png")));
    }

    [Fact]
    public async Task Decision_UnknownFormat_IsNamed()
    {
        (int code, _, string errors) = await RunAsync(Write("{}"), Path.Combine(_folder, "chart.gif"));

        Assert.NotEqual(0, code);
        Assert.Contains(".png, .svg or .pdf", errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Decision_MissingFile_IsBadInput()
    {
        (int code, _, string errors) = await RunAsync(Path.Combine(_folder, "none.json"), Path.Combine(_folder, "chart.png"));

        Assert.Equal(2, code);
        Assert.Contains("none.json", errors, StringComparison.Ordinal);
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static async Task<(int Code, string Output, string Errors)> RunAsync(string file, string output)
    {
        using var printed = new StringWriter();
        using var errors = new StringWriter();
        int code = await ChartCommands.Create(TimeProvider.System).Parse(["decision", file, "--output", output]).InvokeAsync(
            new InvocationConfiguration { Output = printed, Error = errors }, TestContext.Current.CancellationToken);
        return (code, printed.ToString(), errors.ToString());
    }

    private string Write(string json)
    {
        string path = Path.Combine(_folder, "answer.json");
        File.WriteAllText(path, json);
        return path;
    }
}

using System.Text.Json.Nodes;
using ClearView.Client.Files;
using ClearView.Contract;
using ClearView.Contract.Methods;

namespace ClearView.Console.Tests.Commands;

public class JsonTests
{
    [Fact]
    public async Task Evaluate_Json_HoldsEveryValueInFullPrecision()
    {
        var run = await ConsoleRun.RunAsync("evaluate Samples/film-total-diffuse.csv --method astm --limit \"haze<=1\" --json");
        var expected = MeasurementEvaluator.Evaluate(
            ScanFileReader.Read("Samples/film-total-diffuse.csv", ScanFileOptions.None)[0].Measurement,
            BuiltInMethods.Find("astm")!.Method,
            TimeProvider.System).Evaluation!;

        var specimen = JsonNode.Parse(run.Output)!["specimens"]!.AsArray().Single()!;

        Assert.Equal(
            expected.Values.Select(value => (value.Measurand, value.Value)),
            specimen["evaluation"]!["values"]!.AsArray().Select(value => ((string)value!["measurand"]!, (double)value["value"]!)));
        Assert.Equal("FAIL", (string)specimen["result"]!);
        Assert.Equal(81, specimen["evaluation"]!["spectra"]!["totalFraction"]!.AsArray().Count);
        Assert.Equal("Samples/film-total-diffuse.csv", (string)specimen["file"]!);
        Assert.Equal(1, run.ExitCode);
    }

    [Fact]
    public async Task Evaluate_JsonWithFaultyFile_StillIsJson()
    {
        var run = await ConsoleRun.RunAsync("evaluate Samples/hazemeter.csv nothing.csv --method astm --json");

        Assert.Equal(4, JsonNode.Parse(run.Output)!["specimens"]!.AsArray().Count);
        Assert.Contains("nothing.csv", run.Errors, StringComparison.Ordinal);
        Assert.Equal(2, run.ExitCode);
    }

    [Fact]
    public async Task Evaluate_JsonOfRefusedSpecimen_NamesItsFields()
    {
        var run = await ConsoleRun.RunAsync("evaluate Samples/film-total-diffuse.csv --method astm --override aperture_mm=0 --json");

        var specimen = JsonNode.Parse(run.Output)!["specimens"]!.AsArray().Single()!;

        Assert.Null(specimen["evaluation"]);
        Assert.Equal("measurement.conditions.aperture_mm", (string)specimen["violations"]![0]!["field"]!);
    }
}

using System.CommandLine;

using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Console.Rendering.Decisions;

using Spectre.Console;

namespace ClearView.Console.Commands.ControlCharts;

/// <summary>Stores a control chart under a name.</summary>
internal sealed class ControlChartsStoreCommand : DocumentedCommand
{
    private readonly Argument<string> _name = new("name") { HelpName = "NAME", Description = "Name to store it under: a-z, digits, \"-\" and \".\", up to 60 characters." };
    private readonly Option<string> _description = new("--description") { HelpName = "TEXT", Required = true, Description = "What the chart is for, in a line." };
    private readonly Option<string> _by = new("--by") { HelpName = "NAME", Required = true, Description = "Who stores it." };
    private readonly MeasurandChoice _measurand = new();
    private readonly Option<string> _line = new("--line") { HelpName = "TEXT", Description = "Only this production line, exactly." };
    private readonly Option<string> _product = new("--product") { HelpName = "TEXT", Description = "Only this product, exactly." };
    private readonly Option<string> _roll = new("--roll") { HelpName = "TEXT", Description = "Only this roll, exactly." };
    private readonly Option<string> _instrument = new("--instrument") { HelpName = "TEXT", Description = "Only this instrument, exactly." };
    private readonly ControlChartOptions _chart = new(ofFile: false);
    private readonly ServerOption _server = new(isOptional: false);
    private readonly JsonOption _json = new();
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public ControlChartsStoreCommand(Screen screen)
        : base("store", "Store a control chart, its limits taken from a baseline and frozen. From then on each posted reading tells its signals.",
        [
            "clearview control-charts store h3 --measurand haze --kind ewma --known 1.6,0.08 --description Haze --by QA",
            "clearview control-charts store h3 --measurand haze --kind cusum --baseline 2026-03-02..2026-03-05\n      --description \"Haze, line 3\" --by QA",
        ])
    {
        _screen = screen;
        Add(_name);
        BeginGroup("Name", _description);
        Add(_description);
        Add(_by);
        BeginGroup("Series", _measurand.AddTo(this));
        foreach (var option in (Option[])[_line, _product, _roll, _instrument])
        {
            Add(option);
        }
        _chart.AddTo(this);
        BeginGroup("Server and output", _server.AddTo(this));
        _json.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var name = parsed.GetRequiredValue(_name);
        StoredNames.CheckNew(name, "control chart");
        var series = new V1.SeriesFilter
        {
            Measurand = _measurand.Resolve(parsed).Id,
            Line = parsed.GetValue(_line) ?? "",
            Product = parsed.GetValue(_product) ?? "",
            Roll = parsed.GetValue(_roll) ?? "",
            Instrument = parsed.GetValue(_instrument) ?? "",
        };
        var chart = _chart.Resolve(parsed, series, values: null);
        await using var client = _server.Connect(parsed);
        var response = await client.StoreControlChartAsync(name, parsed.GetRequiredValue(_description), chart, parsed.GetRequiredValue(_by), cancellation);
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(_screen, JsonText.OfMessage(response)!);
            return ExitCode.Ok;
        }
        ControlChartScreen.Write(_screen, response.ControlChart);
        _screen.Line(response.AlreadyStored
            ? "The newest version held the same already: nothing was stored."
            : $"Stored as {Markup.Escape(DecisionText.Versioned(response.ControlChart.ControlChartName.Name, response.ControlChart.ControlChartName.Version))}.");
        return ExitCode.Ok;
    }
}

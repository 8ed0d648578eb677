using System.CommandLine;

using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.V1;

namespace ClearView.Console.Commands.ControlCharts;

/// <summary>Draws a stored control chart over the readings that are stored now.</summary>
internal sealed class ControlChartsShowCommand : DocumentedCommand
{
    private readonly Argument<string> _name = new("name") { HelpName = "NAME[@VERSION]", Description = "The chart's name; the newest version unless one is given." };
    private readonly TimeOption _from = new("--from", "Measured at this time or later:");
    private readonly TimeOption _before = new("--before", "Measured before this time:");
    private readonly ServerOption _server = new(isOptional: false);
    private readonly JsonOption _json = new();
    private readonly ChartFileOption _picture = new();
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public ControlChartsShowCommand(Screen screen)
        : base("show", "Show a stored control chart over the readings that are stored now: limits, phases, signals, late readings.",
        [
            "clearview control-charts show haze-line-3",
            "clearview control-charts show haze-line-3@2 --from 2026-03-02 --before 2026-03-09",
            "clearview control-charts show haze-line-3 --chart haze-line-3.pdf",
        ])
    {
        _screen = screen;
        Add(_name);
        _from.AddTo(this);
        _before.AddTo(this);
        _server.AddTo(this);
        _json.AddTo(this);
        _picture.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var text = parsed.GetRequiredValue(_name);
        var request = new GetControlChartRequest
        {
            ControlChartName = StoredNames.Chart(text)
                ?? throw new UsageException($"\"{text}\" is not a control chart's name; write NAME or NAME@VERSION, for example haze-line-3"),
        };
        var (from, before) = (_from.Resolve(parsed), _before.Resolve(parsed));
        if (from is not null || before is not null)
        {
            request.Span = new MeasuredSpan { MeasuredFrom = from, MeasuredBefore = before };
        }
        await using var client = _server.Connect(parsed);
        DrawnChart.Show(_screen, parsed, await DrawnChart.JoinAsync(client.GetControlChartAsync(request, cancellation)), _json, _picture);
        return ExitCode.Ok;
    }
}

using System.CommandLine;

using ClearView.Client;
using ClearView.Client.Files;
using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Contract.ControlCharts;
using ClearView.Contract.Validation;
using ClearView.V1;

using ValueTable = ClearView.Client.Files.ValueTable;

namespace ClearView.Console.Commands.ControlCharts;

/// <summary>Draws a control chart over a file of values.</summary>
internal sealed class ControlChartsDrawCommand : DocumentedCommand
{
    private readonly OwnValues _own = new(required: true);
    private readonly OriginOptions _origin = new();
    private readonly MeasurandChoice _measurand = new();
    private readonly ControlChartOptions _chart = new(ofFile: true);
    private readonly ServerOption _server = new($"Let this server draw, for example {ServerAddresses.Default}. Without it everything is computed here.");
    private readonly JsonOption _json = new();
    private readonly ChartFileOption _picture = new();
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public ControlChartsDrawCommand(Screen screen)
        : base("draw", "Draw a control chart over a table of values of your own. Nothing is stored.",
        [
            "clearview control-charts draw values.csv --measurand haze --kind individuals --baseline 1..25",
            "clearview control-charts draw v.csv --measurand haze --kind averages-range --subgroup roll \\\n--known 1.6,0.08",
            "clearview control-charts draw v.csv --measurand haze --kind ewma --baseline 1..25 --chart haze.png",
        ])
    {
        _screen = screen;
        _own.AddFileTo(this);
        BeginGroup("Measurand", _measurand.AddTo(this));
        _chart.AddTo(this);
        BeginGroup("Rows", _origin.AddTo(this));
        BeginGroup("File", _own.AddOptionsTo(this));
        BeginGroup("Server and output", _server.AddTo(this));
        _json.AddTo(this);
        _picture.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var measurand = _measurand.Resolve(parsed).Id;
        var table = _origin.Choose(parsed, _own.Read(_screen, parsed)!);
        var values = table.ToSeries(measurand, Label(parsed, table));
        var chart = _chart.Resolve(parsed, new SeriesFilter { Measurand = measurand }, values);
        if (chart.Subgrouping is { ByCase: Subgrouping.ByOneofCase.Label })
        {
            // The file's own rolls or lots, whatever they are called.
            chart.Subgrouping.Label = SubgroupLabel.Given;
        }
        var request = new DrawControlChartRequest { ControlChart = chart, Values = values };
        DrawnControlChart drawn;
        if (_server.IsGiven(parsed))
        {
            await using var client = _server.Connect(parsed);
            drawn = await DrawnChart.JoinAsync(client.DrawControlChartAsync(request, cancellation));
        }
        else
        {
            var violations = new Violations();
            var parts = GivenControlChart.Draw(request, violations) ?? throw Refusal.Of(violations.ToImmutable());
            drawn = await DrawnChart.JoinAsync(parts.ToAsyncEnumerable());
        }
        DrawnChart.Show(_screen, parsed, drawn, _json, _picture, values.MeasuredAt.Count > 0);
        return ExitCode.Ok;
    }

    private Func<ValueRow, string>? Label(ParseResult parsed, ValueTable table)
    {
        Func<ValueRow, string>? label = _chart.Label(parsed) switch
        {
            SubgroupLabel.Roll => row => row.Roll,
            SubgroupLabel.Lot => row => row.Lot,
            _ => null,
        };
        return label is not null && table.Rows.FirstOrDefault(row => label(row).Length == 0) is { } without
            ? throw new ScanFileException(table.FilePath, without.FileLine, null, "the row has no label to form subgroups by", "a column \"roll\" or \"lot\", filled in each row")
            : label;
    }
}

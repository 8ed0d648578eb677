using System.CommandLine;

using ClearView.Client.Files;
using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Console.Rendering.Decisions;
using ClearView.Contract.Studies;
using ClearView.Plotting.Decisions;
using ClearView.Plotting.Model;
using ClearView.V1;

using ValueTable = ClearView.Client.Files.ValueTable;

namespace ClearView.Console.Commands.Studies;

/// <summary>Compares lots on one measurand or several.</summary>
internal sealed class CompareLotsCommand : DocumentedCommand
{
    private readonly StudyArguments _arguments = new();
    private readonly MeasurandChoice _measurands = new(repeatable: true);

    private readonly Option<string[]> _lots = new("--lot")
    {
        HelpName = "TEXT",
        Arity = ArgumentArity.OneOrMore,
        AllowMultipleArgumentsPerToken = false,
        Description = "A lot to compare, exactly; repeatable. Of a file of your own, all lots unless some are named.",
    };

    private readonly MarginOption _margin = new();
    private readonly CheckedOption<double[]> _confidence = NumberOptions.Confidence();
    private readonly CheckedOption<double[]> _power = NumberOptions.Level("--power", "Power asked of the number of specimens, %. [default: 80]");
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public CompareLotsCommand(Screen screen)
        : base("compare-lots", "Compare lots: differences with intervals, equivalence within a margin, spread, ageing, outliers.",
        [
            "clearview compare-lots --lot R-2201 --lot R-2202 --measurand haze --margin haze=0.2",
            "clearview compare-lots lots.csv --measurand haze --measurand yellowness_index_e313",
            "clearview compare-lots lots.csv --measurand haze --margin haze=0.2,0.1 --chart lots.png",
        ])
    {
        _screen = screen;
        _arguments.AddFileTo(this);
        Add(_lots);
        BeginGroup("Question", _lots);
        _measurands.AddTo(this);
        Add(_margin.Margins.Option);
        Add(_confidence.Option);
        Add(_power.Option);
        _arguments.AddOriginTo(this, wholeLots: true);
        _arguments.AddOutputTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var measurands = _measurands.ResolveAll(parsed).Select(measurand => measurand.Id).ToList();
        var lots = (parsed.GetValue(_lots) ?? []).Distinct(StringComparer.Ordinal).ToList();
        var request = new CompareLotsRequest
        {
            Options = new LotComparisonOptions
            {
                ConfidencePercent = _confidence.Resolve(parsed)?[0] ?? 0,
                PowerPercent = _power.Resolve(parsed)?[0] ?? 0,
                Margins = { _margin.Margins.ResolveAll(parsed) },
            },
        };
        await using var client = _arguments.Connect(parsed);
        if (_arguments.Read(_screen, parsed) is { } table)
        {
            var chosen = lots.Count == 0 ? table : Choose(table, lots);
            request.Given = new GivenLots { Tables = { measurands.Select(chosen.ToLots) } };
        }
        else
        {
            if (lots.Count < 2)
            {
                throw new UsageException("name the lots to compare: --lot once for each, two or more");
            }
            request.Stored = new StoredLots
            {
                Lots = { lots },
                Measurands = { measurands },
                Line = _arguments.Origin.Line(parsed),
                Product = _arguments.Origin.Product(parsed),
                Span = _arguments.Origin.Span(parsed),
            };
        }
        var response = client is null ? Refusal.Answer(LotStudy.Compare(request, cancellation)) : await client.CompareLotsAsync(request, cancellation);
        if (_arguments.WantsJson(parsed))
        {
            JsonText.Write(_screen, JsonText.OfMessage(response)!);
        }
        else
        {
            Show(response);
        }
        // One picture for each measurand.
        _arguments.Draw(_screen, parsed, [.. response.Comparisons.Select(comparison =>
            (response.Comparisons.Count == 1 ? "" : $"-{comparison.Measurand}", (Func<ChartModel>)(() => LotComparisonChart.Build(comparison))))]);
        return ExitCode.Ok;
    }

    private void Show(CompareLotsResponse response)
    {
        foreach (var comparison in response.Comparisons)
        {
            if (comparison != response.Comparisons[0])
            {
                _screen.Line();
            }
            LotScreen.Write(_screen, comparison);
        }
    }

    private static ValueTable Choose(ValueTable table, List<string> lots) =>
        lots.FirstOrDefault(lot => table.Rows.All(row => row.Lot != lot)) is { } missing
            ? throw new ScanFileException(table.FilePath, null, null, $"no row names the lot \"{missing}\"",
                $"one of {string.Join(", ", table.Rows.Select(row => row.Lot).Distinct(StringComparer.Ordinal).Take(20))}")
            : table with { Rows = [.. table.Rows.Where(row => lots.Contains(row.Lot))] };
}

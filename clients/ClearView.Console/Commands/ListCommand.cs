using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;

using ClearView.Console.Judging;
using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Console.Rendering.Decisions;
using ClearView.Optics.Evaluations;
using ClearView.V1;

namespace ClearView.Console.Commands;

/// <summary>Lists stored readings.</summary>
internal sealed class ListCommand : DocumentedCommand
{
    private const int MostOnPage = 1000;

    private readonly Option<string> _line = new("--line") { HelpName = "TEXT", Description = "Only this production line, exactly." };
    private readonly Option<string> _product = new("--product") { HelpName = "TEXT", Description = "Only this product, exactly." };
    private readonly Option<string> _lot = new("--lot") { HelpName = "TEXT", Description = "Only this lot, exactly." };
    private readonly Option<string> _roll = new("--roll") { HelpName = "TEXT", Description = "Only this roll, exactly." };
    private readonly Option<string> _specimen = new("--specimen") { HelpName = "TEXT", Description = "Only this specimen, exactly." };
    private readonly TimeOption _from = new("--from", "Measured at this time or later:");
    private readonly TimeOption _before = new("--before", "Measured before this time:");
    private readonly Option<bool> _oldestFirst = new("--oldest-first") { Description = "Oldest first instead of newest first." };
    private readonly Option<int> _count = new("--count", "-n") { HelpName = "NUMBER", DefaultValueFactory = _ => 50, Description = "Readings to show at most." };
    private readonly LimitOption _limits = new();
    private readonly ServerOption _server = new(isOptional: false);
    private readonly JsonOption _json = new();
    private readonly Option<bool> _csv = new("--csv") { Description = "Write CSV to the standard output, in full precision: a table of values for a spreadsheet, or for the studies here." };
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public ListCommand(Screen screen)
        : base("list", "List stored readings, newest first.",
        [
            "clearview list",
            "clearview list --product \"clear lidding 38\" --roll 14 --from 2026-03-02 --limit \"haze<=2.0\"",
            "clearview list --line 3 --count 500 --csv",
        ])
    {
        _screen = screen;
        foreach (var option in (Option[])[_line, _product, _lot, _roll, _specimen])
        {
            Add(option);
        }
        _from.AddTo(this);
        _before.AddTo(this);
        Add(_oldestFirst);
        _count.Validators.Add(result =>
        {
            if (result.GetValueOrDefault<int>() < 1)
            {
                result.AddError("--count: write a number of at least 1");
            }
        });
        Add(_count);
        _limits.AddTo(this);
        _server.AddTo(this);
        _json.AddTo(this);
        Add(_csv);
        Validators.Add(result =>
        {
            if (result.GetValue(_csv) && _json.IsGiven(result))
            {
                result.AddError("give --json or --csv, not both");
            }
        });
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var limits = _limits.Resolve(parsed);
        var count = parsed.GetValue(_count);
        await using var client = _server.Connect(parsed);
        var results = new List<SpecimenResult>();
        var more = false;
        await foreach (var reading in client.ListAsync(ToRequest(parsed, count), cancellation))
        {
            if (results.Count == count)
            {
                more = true;
                break;
            }
            results.Add(new SpecimenResult
            {
                Measurement = reading.Measurement,
                Reading = reading,
                Evaluation = reading.Evaluation,
                Verdict = LimitsVerdict.Of(reading.Evaluation, limits),
            });
        }
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(_screen, new JsonObject
            {
                ["readings"] = new JsonArray([.. results.Select(ShowCommand.ToJson)]),
                ["more"] = more,
            });
        }
        else if (parsed.GetValue(_csv))
        {
            ReadingsCsv.Write(_screen, [.. results.Select(result => result.Reading!)]);
            TellOfMore(more, count);
        }
        else
        {
            Show(results, limits, more, count);
        }
        return Outcome.Report(_screen, results, 0);
    }

    private void Show(List<SpecimenResult> results, System.Collections.Immutable.ImmutableArray<Limit> limits, bool more, int count)
    {
        if (results.Count == 0)
        {
            _screen.Line("No reading matches.");
            return;
        }
        // Readings of one list may have been made by different methods; each is named once, above the readings that share it.
        foreach (var group in results.GroupBy(result => (result.Evaluation!.Method, result.Evaluation.MethodName)))
        {
            MethodPanel.Write(_screen, group.Key.Method, limits, group.Key.MethodName);
            var notebook = new Notebook();
            var judged = group.Any(result => result.Reading!.Verdict is not null);
            List<(string Header, Func<SpecimenResult, string> Text)> trailing = judged
                ?
                [
                    ("Stored verdict", result => VerdictColumn.Of(result.Reading!.Verdict)),
                    // Verdict and identifier do not stand side by side within the width.
                    ("Reading ID", result => NameText.Fold(result.Reading!.ReadingId, VerdictColumn.FoldedIdentifier)),
                ]
                : [("Reading ID", result => NameText.Identifier(_screen, result.Reading!.ReadingId))];
            SpecimenTable.Write(
                _screen,
                [.. group],
                [
                    ("Measured (UTC)", result => result.Measurement.MeasuredAt.ToDateTime().ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture)),
                    ("Specimen", result => NameText.Of(_screen, result.Specimen)),
                    ("Roll", result => NameText.Of(_screen, result.Measurement.Identification.Roll)),
                ],
                limits,
                notebook,
                trailing,
                [Measurands.LuminousTransmittance, Measurands.Haze]);
            notebook.Write(_screen, group.Count());
        }
        VerdictText.WriteSummary(_screen, results);
        foreach (var reading in results.Select(result => result.Reading!).Where(reading => reading.SupersededBy.Length > 0))
        {
            _screen.Line($"[bold]superseded[/]: {Spectre.Console.Markup.Escape(reading.Measurement.Identification.Specimen)} {reading.ReadingId}");
            _screen.Line($"    by {reading.SupersededBy}");
        }
        TellOfMore(more, count);
    }

    private void TellOfMore(bool more, int count)
    {
        if (more)
        {
            _screen.Note($"there are more than {NumberText.Plain(count)}; --count NUMBER shows more");
        }
    }

    private ListReadingsRequest ToRequest(ParseResult parsed, int count) => new()
    {
        // One more than is shown, to know whether there are more.
        PageSize = Math.Min(count, MostOnPage - 1) + 1,
        Line = parsed.GetValue(_line) ?? "",
        Product = parsed.GetValue(_product) ?? "",
        Lot = parsed.GetValue(_lot) ?? "",
        Roll = parsed.GetValue(_roll) ?? "",
        Specimen = parsed.GetValue(_specimen) ?? "",
        MeasuredFrom = _from.Resolve(parsed),
        MeasuredBefore = _before.Resolve(parsed),
        NewestFirst = !parsed.GetValue(_oldestFirst),
        OmitSpectra = true,
    };
}

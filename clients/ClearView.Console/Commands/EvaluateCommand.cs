using System.CommandLine;
using System.Runtime.CompilerServices;
using System.Text.Json.Nodes;

using ClearView.Client;
using ClearView.Client.Files;
using ClearView.Console.Judging;
using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Contract;
using ClearView.V1;

namespace ClearView.Console.Commands;

/// <summary>Evaluates files; nothing is stored.</summary>
internal sealed class EvaluateCommand : DocumentedCommand
{
    private readonly Argument<string[]> _paths = new("path") { Arity = ArgumentArity.OneOrMore, Description = "Scan files, or folders with scan files (docs/files.md)." };
    private readonly Option<bool> _detail = new("--detail") { Description = "Show each specimen in full; a single one always is." };
    private readonly MethodOptions _method = new();
    private readonly LimitOption _limits = new();
    private readonly ScanOptions _scans = new();
    private readonly ServerOption _server = new(isOptional: true);
    private readonly JsonOption _json = new();
    private readonly Screen _screen;
    private readonly TimeProvider _clock;

    /// <summary>Creates the command.</summary>
    public EvaluateCommand(Screen screen, TimeProvider clock)
        : base("evaluate", "Evaluate scan files: haze, transmittance, colour, yellowness. Nothing is stored.",
        [
            "clearview evaluate film.csv --method astm",
            "clearview evaluate scans/ --method iso --limit \"haze<=2.0\" --limit \"luminous_transmittance>=90\"",
            "clearview evaluate film.csv --method astm --colour C/2 --yellowness e313,d1925 --json",
        ])
    {
        _screen = screen;
        _clock = clock;
        Add(_paths);
        _method.AddTo(this);
        _limits.AddTo(this);
        Add(_detail);
        _scans.AddTo(this);
        _server.AddTo(this);
        _json.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var method = _method.Resolve(parsed);
        var limits = _limits.Resolve(parsed);
        var input = ScanInput.Read(_screen, parsed.GetRequiredValue(_paths), _scans.Resolve(parsed));
        var results = new List<SpecimenResult>();
        await _screen.WithProgressAsync("evaluating", input.Specimens.Count, async step =>
        {
            await foreach (var (specimen, evaluation, violations) in EvaluateAsync(parsed, input.Specimens, method, cancellation))
            {
                results.Add(new SpecimenResult
                {
                    Measurement = specimen.Measurement,
                    FilePath = specimen.FilePath,
                    Line = specimen.Line,
                    Notes = specimen.Notes,
                    Evaluation = evaluation,
                    Violations = [.. violations],
                    Verdict = evaluation is null ? null : Verdict.Of(evaluation, limits),
                });
                step();
            }
            return results.Count;
        });
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(_screen, new JsonObject
            {
                ["method"] = JsonText.OfMessage(method),
                ["specimens"] = new JsonArray([.. results.Select(ToJson)]),
            });
        }
        else
        {
            Show(results, method, limits, parsed.GetValue(_detail));
        }
        return Outcome.Report(_screen, results, input.FaultyFiles);
    }

    private void Show(List<SpecimenResult> all, Method method, System.Collections.Immutable.ImmutableArray<Limit> limits, bool detail)
    {
        var results = all.Where(result => result.Evaluation is not null).ToList();
        if (results.Count == 1 || detail)
        {
            foreach (var result in results)
            {
                if (result != results[0])
                {
                    _screen.Line();
                }
                SpecimenDetail.Write(_screen, result, limits);
            }
            return;
        }
        if (results.Count == 0)
        {
            return;
        }
        MethodPanel.Write(_screen, method, limits);
        var notebook = new Notebook();
        SpecimenTable.Write(_screen, results, [("Specimen", result => result.Specimen), ("File", result => Path.GetFileName(result.FilePath!))], limits, notebook, []);
        notebook.Write(_screen, results.Count);
        VerdictText.WriteSummary(_screen, results);
    }

    private async IAsyncEnumerable<(ScannedSpecimen Specimen, Evaluation? Evaluation, IEnumerable<FieldViolation> Violations)> EvaluateAsync(
        ParseResult parsed, IReadOnlyList<ScannedSpecimen> specimens, Method method, [EnumeratorCancellation] CancellationToken cancellation)
    {
        if (!_server.IsGiven(parsed))
        {
            foreach (var specimen in specimens)
            {
                cancellation.ThrowIfCancellationRequested();
                var outcome = MeasurementEvaluator.Evaluate(specimen.Measurement, method, _clock);
                yield return (specimen, outcome.Evaluation, outcome.Violations);
            }
            yield break;
        }
        await using ClearViewClient client = _server.Connect(parsed);
        var answered = 0;
        await foreach (var response in client.EvaluateManyAsync(Requests(specimens, method), cancellation))
        {
            yield return (specimens[answered++], response.Evaluation, response.Refusal?.FieldViolations ?? []);
        }
    }

    private static async IAsyncEnumerable<EvaluateManyRequest> Requests(IReadOnlyList<ScannedSpecimen> specimens, Method method)
    {
        for (var i = 0; i < specimens.Count; i++)
        {
            await Task.CompletedTask;
            yield return new EvaluateManyRequest { CorrelationId = NumberText.Plain(i), Measurement = specimens[i].Measurement, Method = method };
        }
    }

    private static JsonObject ToJson(SpecimenResult result)
    {
        var node = JsonText.OfFileResult(result);
        node["evaluation"] = JsonText.OfMessage(result.Evaluation);
        return node;
    }
}

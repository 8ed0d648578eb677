using System.Collections.Immutable;
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
    private readonly SpecimenArguments _arguments = new(serverIsOptional: true);
    private readonly Option<bool> _detail = new("--detail") { Description = "Show each specimen in full; a single one always is." };
    private readonly Option<bool> _mean = new("--mean") { Description = "Add the means over the specimens, and over each region of a bottle's wall." };
    private readonly Screen _screen;
    private readonly TimeProvider _clock;

    /// <summary>Creates the command.</summary>
    public EvaluateCommand(Screen screen, TimeProvider clock)
        : base("evaluate", "Evaluate scan files: haze, transmittance, colour, yellowness. Nothing is stored.",
        [
            "clearview evaluate scans/ --method iso --limit \"haze<=2.0\" --limit \"luminous_transmittance>=90\"",
            "clearview evaluate film.csv --method astm --reference 96.5,-0.2,0.8 --thickness 50 --resin pet",
            "clearview evaluate scans/ --method astm --mean --uncertainty repeatability=0.05,zero=0.02",
        ])
    {
        _screen = screen;
        _clock = clock;
        _arguments.AddTo(this, _detail, _mean);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        await using var client = _arguments.Connect(parsed);
        var (method, limits, input) = await _arguments.ResolveAsync(_screen, parsed, client, cancellation);
        var results = new List<SpecimenResult>();
        await _screen.WithProgressAsync("evaluating", input.Specimens.Count, async step =>
        {
            await foreach (var (specimen, evaluation, violations) in EvaluateAsync(client, input.Specimens, method, cancellation))
            {
                results.Add(new SpecimenResult
                {
                    Measurement = specimen.Measurement,
                    FilePath = specimen.FilePath,
                    Line = specimen.Line,
                    Notes = specimen.Notes,
                    Evaluation = evaluation,
                    Violations = [.. violations],
                    Verdict = evaluation is null ? null : LimitsVerdict.Of(evaluation, limits),
                });
                step();
            }
            return results.Count;
        });
        var summary = parsed.GetValue(_mean) ? await SummariseAsync(client, results, method, cancellation) : null;
        if (_arguments.WantsJson(parsed))
        {
            var document = new JsonObject
            {
                ["method"] = JsonText.OfMessage(method.Method),
                ["specimens"] = new JsonArray([.. results.Select(ToJson)]),
            };
            if (summary is not null)
            {
                document["means"] = new JsonArray([.. summary.Means.Select(JsonText.OfMessage)]);
                document["wallSummaries"] = new JsonArray([.. summary.WallSummaries.Select(JsonText.OfMessage)]);
            }
            JsonText.Write(_screen, document);
        }
        else
        {
            Show([.. results.Where(result => result.Evaluation is not null)], method, limits, parsed.GetValue(_detail));
            MeansTable.Write(_screen, summary, limits);
        }
        return Outcome.Report(_screen, results, input.FaultyFiles);
    }

    private void Show(List<SpecimenResult> results, ChosenMethod method, ImmutableArray<Limit> limits, bool detail)
    {
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
        MethodPanel.Write(_screen, method.Method, limits, method.StoredName);
        var notebook = new Notebook();
        SpecimenTable.Write(
            _screen,
            results,
            [("Specimen", result => NameText.Of(_screen, result.Specimen)), ("File", result => NameText.File(_screen, result.FilePath!))],
            limits,
            notebook,
            []);
        notebook.Write(_screen, results.Count);
        VerdictText.WriteSummary(_screen, results);
    }

    private async IAsyncEnumerable<(ScannedSpecimen Specimen, Evaluation? Evaluation, IEnumerable<FieldViolation> Violations)> EvaluateAsync(
        ClearViewClient? client, IReadOnlyList<ScannedSpecimen> specimens, ChosenMethod method, [EnumeratorCancellation] CancellationToken cancellation)
    {
        if (client is null)
        {
            foreach (var specimen in specimens)
            {
                cancellation.ThrowIfCancellationRequested();
                var outcome = MeasurementEvaluator.Evaluate(specimen.Measurement, method.Method, _clock);
                yield return (specimen, outcome.Evaluation, outcome.Violations);
            }
            yield break;
        }
        var answered = 0;
        await foreach (var response in client.EvaluateManyAsync(Requests(specimens, method), cancellation))
        {
            yield return (specimens[answered++], response.Evaluation, response.Refusal?.FieldViolations ?? []);
        }
    }

    // Only what was evaluated has a mean; what was refused is told beneath.
    private async Task<EvaluateSpecimensResponse?> SummariseAsync(
        ClearViewClient? client, List<SpecimenResult> results, ChosenMethod method, CancellationToken cancellation)
    {
        Measurement[] measurements = [.. results.Where(result => result.Evaluation is not null).Select(result => result.Measurement)];
        if (measurements.Length == 0)
        {
            return null;
        }
        // Each specimen has had its Monte Carlo run already; a mean rests on none.
        var withoutTrials = method.Method.Clone();
        if (withoutTrials.Uncertainty is { } uncertainty)
        {
            uncertainty.MonteCarlo = null;
        }
        if (client is null)
        {
            var outcome = SpecimensEvaluator.Evaluate(measurements, MethodChoice.Given(withoutTrials), _clock, cancellationToken: cancellation);
            return outcome.Response
                ?? throw new UsageException($"--mean: {string.Join("; ", outcome.Violations.Select(violation => $"{violation.Field} {violation.Description}"))}");
        }
        return await client.EvaluateSpecimensAsync(measurements, withoutTrials, omitSpectra: true, cancellation);
    }

    private static async IAsyncEnumerable<EvaluateManyRequest> Requests(IReadOnlyList<ScannedSpecimen> specimens, ChosenMethod method)
    {
        for (var i = 0; i < specimens.Count; i++)
        {
            await Task.CompletedTask;
            var request = new EvaluateManyRequest { CorrelationId = NumberText.Plain(i), Measurement = specimens[i].Measurement };
            if (method.StoredName is { } name)
            {
                request.MethodName = name;
            }
            else
            {
                request.Method = method.Method;
            }
            yield return request;
        }
    }

    private static JsonObject ToJson(SpecimenResult result)
    {
        var node = JsonText.OfFileResult(result);
        node["evaluation"] = JsonText.OfMessage(result.Evaluation);
        return node;
    }
}

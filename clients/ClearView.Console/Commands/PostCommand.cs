using System.CommandLine;
using System.Text.Json.Nodes;

using ClearView.Client;
using ClearView.Client.Files;
using ClearView.Console.Judging;
using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Optics.Evaluations;

using Grpc.Core;

using Method = ClearView.V1.Method;

namespace ClearView.Console.Commands;

/// <summary>Posts files to a server, which evaluates and stores them.</summary>
internal sealed class PostCommand : DocumentedCommand
{
    private readonly Argument<string[]> _paths = new("path") { Arity = ArgumentArity.OneOrMore, Description = "Scan files, or folders with scan files (docs/files.md)." };
    private readonly MethodOptions _method = new();
    private readonly LimitOption _limits = new();
    private readonly ScanOptions _scans = new();
    private readonly ServerOption _server = new(isOptional: false);
    private readonly JsonOption _json = new();
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public PostCommand(Screen screen)
        : base("post", "Post scan files to the server, which evaluates and stores them. Posting the same again changes nothing.",
        [
            "clearview post film.csv --method astm",
            "clearview post scans/ --method astm --set operator=\"E. Marsh\" --set line=3",
            "clearview post scans/ --method iso --limit \"haze<=2.0\" --server 127.0.0.1:5180 --json",
        ])
    {
        _screen = screen;
        Add(_paths);
        _method.AddTo(this);
        _limits.AddTo(this);
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
        if (input.FaultyFiles > 0)
        {
            _screen.Error($"nothing was posted, because {VerdictText.Counted(input.FaultyFiles, "file")} cannot be read");
            return ExitCode.BadInput;
        }
        await using var client = _server.Connect(parsed);
        var results = await _screen.WithProgressAsync("posting", input.Specimens.Count, async step =>
        {
            var done = new List<SpecimenResult>();
            foreach (var specimen in input.Specimens)
            {
                done.Add(await PostAsync(client, specimen, method, limits, cancellation));
                step();
            }
            return done;
        });
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(_screen, new JsonObject
            {
                ["method"] = JsonText.OfMessage(method),
                ["readings"] = new JsonArray([.. results.Select(ToJson)]),
            });
        }
        else if (results.Any(result => result.Reading is not null))
        {
            Show([.. results.Where(result => result.Reading is not null)], method, limits);
        }
        return Outcome.Report(_screen, results, 0);
    }

    private static async Task<SpecimenResult> PostAsync(
        ClearViewClient client, ScannedSpecimen specimen, Method method, System.Collections.Immutable.ImmutableArray<Limit> limits, CancellationToken cancellation)
    {
        var result = new SpecimenResult
        {
            Measurement = specimen.Measurement,
            FilePath = specimen.FilePath,
            Line = specimen.Line,
            Notes = specimen.Notes,
        };
        try
        {
            var id = ReadingId.ForContent(specimen.Measurement, method);
            var response = await client.PostAsync(id, specimen.Measurement, method, cancellation);
            return result with
            {
                Reading = response.Reading,
                Evaluation = response.Reading.Evaluation,
                AlreadyStored = response.AlreadyStored,
                Verdict = Verdict.Of(response.Reading.Evaluation, limits),
            };
        }
        catch (ClearViewCallException e) when (e.Status == StatusCode.InvalidArgument && e.Violations.Length > 0)
        {
            return result with { Violations = e.Violations };
        }
    }

    private void Show(IReadOnlyCollection<SpecimenResult> results, Method method, System.Collections.Immutable.ImmutableArray<Limit> limits)
    {
        MethodPanel.Write(_screen, method, limits);
        var notebook = new Notebook();
        SpecimenTable.Write(
            _screen,
            results,
            [("Specimen", result => result.Specimen), ("Reading ID", result => result.Reading!.ReadingId)],
            limits,
            notebook,
            [("Store", result => result.AlreadyStored == true ? "there" : "new")],
            [Measurands.LuminousTransmittance, Measurands.Haze, Measurands.YellownessIndexE313]);
        notebook.Write(_screen, results.Count);
        var there = results.Count(result => result.AlreadyStored == true);
        _screen.Line($"{VerdictText.Counted(results.Count - there, "reading")} stored" + (there > 0 ? $", {NumberText.Plain(there)} had been stored before" : ""));
        VerdictText.WriteSummary(_screen, results);
    }

    private static JsonObject ToJson(SpecimenResult result)
    {
        var node = JsonText.OfFileResult(result);
        node["alreadyStored"] = result.AlreadyStored;
        node["reading"] = JsonText.OfMessage(result.Reading);
        return node;
    }
}

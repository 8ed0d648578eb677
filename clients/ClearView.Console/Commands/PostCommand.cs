using System.CommandLine;
using System.Text.Json.Nodes;

using ClearView.Client;
using ClearView.Client.Files;
using ClearView.Console.Judging;
using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Optics.Evaluations;

using Grpc.Core;

namespace ClearView.Console.Commands;

/// <summary>Posts files to a server, which evaluates and stores them.</summary>
internal sealed class PostCommand : DocumentedCommand
{
    private readonly SpecimenArguments _arguments = new(serverIsOptional: false);
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public PostCommand(Screen screen)
        : base("post", "Post scan files to the server, which evaluates and stores them. Posting the same again changes nothing.",
        [
            "clearview post film.csv --method astm",
            "clearview post scans/ --method astm --set operator=\"E. Marsh\" --set line=3",
            "clearview post scans/ --method line-3@2 --limit \"haze<=2.0\" --server 127.0.0.1:5180 --json",
        ])
    {
        _screen = screen;
        _arguments.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        // Connecting sends nothing yet; only a method that the server keeps is asked for before the files are read.
        await using var client = _arguments.Connect(parsed)!;
        var (method, limits, input) = await _arguments.ResolveAsync(_screen, parsed, client, cancellation);
        if (input.FaultyFiles > 0)
        {
            _screen.Error($"nothing was posted, because {VerdictText.Counted(input.FaultyFiles, "file")} cannot be read");
            return ExitCode.BadInput;
        }
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
        if (_arguments.WantsJson(parsed))
        {
            JsonText.Write(_screen, new JsonObject
            {
                ["method"] = JsonText.OfMessage(method.Method),
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
        ClearViewClient client, ScannedSpecimen specimen, ChosenMethod method, System.Collections.Immutable.ImmutableArray<Limit> limits, CancellationToken cancellation)
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
            var id = ReadingId.ForContent(specimen.Measurement, method.Method);
            var response = method.StoredName is { } name
                ? await client.PostAsync(id, specimen.Measurement, name, cancellation)
                : await client.PostAsync(id, specimen.Measurement, method.Method, cancellation);
            return result with
            {
                Reading = response.Reading,
                Evaluation = response.Reading.Evaluation,
                AlreadyStored = response.AlreadyStored,
                Verdict = LimitsVerdict.Of(response.Reading.Evaluation, limits),
            };
        }
        catch (ClearViewCallException e) when (e.Status == StatusCode.InvalidArgument && e.Violations.Length > 0)
        {
            return result with { Violations = e.Violations };
        }
    }

    private void Show(IReadOnlyCollection<SpecimenResult> results, ChosenMethod method, System.Collections.Immutable.ImmutableArray<Limit> limits)
    {
        MethodPanel.Write(_screen, method.Method, limits, method.StoredName);
        var notebook = new Notebook();
        SpecimenTable.Write(
            _screen,
            results,
            [
                ("Specimen", result => NameText.Of(_screen, result.Specimen)),
                ("Reading ID", result => NameText.Identifier(_screen, result.Reading!.ReadingId)),
            ],
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

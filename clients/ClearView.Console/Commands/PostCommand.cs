using System.Collections.Immutable;
using System.CommandLine;
using System.Text.Json.Nodes;

using ClearView.Client;
using ClearView.Client.Files;
using ClearView.Console.Commands.Outboxes;
using ClearView.Console.Judging;
using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Console.Rendering.Decisions;
using ClearView.V1;

using Grpc.Core;

using Measurands = ClearView.Optics.Evaluations.Measurands;

namespace ClearView.Console.Commands;

/// <summary>Posts files to a server, which evaluates and stores them.</summary>
internal sealed class PostCommand : DocumentedCommand
{
    private readonly SpecimenArguments _arguments = new(serverIsOptional: false)
    {
        PathsAreOptional = true,
        Specification = new(
            "--specification", "NAME[@VERSION]",
            "Judge each reading under this stored specification, whose method is taken, and store the verdict with it.",
            StoredNames.Specification, "write a specification's name, or NAME@VERSION"),
    };

    private readonly PostedByOptions _postedBy = new();
    private readonly PictureFileOption _picture = new();
    private readonly LinePosting _line = new();
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public PostCommand(Screen screen)
        : base("post", "Post scan files to the server, which evaluates and stores them. Posting the same again changes nothing.",
        [
            "clearview post film.csv --method astm",
            "clearview post scans/ --specification lidding-38 --set operator=\"E. Marsh\" --server 127.0.0.1:5180",
            "clearview post --follow scans/ --method astm --set line=3 --outbox line3",
        ])
    {
        _screen = screen;
        _arguments.AddTo(this);
        BeginGroup("Origin, stored with each reading", _postedBy.AddTo(this));
        _picture.AddTo(this);
        _line.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        // Connecting sends nothing yet; only a method that the server keeps is asked for before the files are read.
        await using var client = _arguments.Connect(parsed)!;
        if (_line.IsGiven(parsed))
        {
            if (_picture.IsGiven(parsed))
            {
                throw new UsageException("--picture goes with one scan file, not with --follow or --stdin");
            }
            return await _line.RunAsync(
                new OutboxScreen(_screen, _arguments.Limits(parsed), _arguments.WantsJson(parsed)),
                parsed, client, _arguments.Scans(parsed), () => RequestMakerAsync(parsed, client, cancellation), cancellation);
        }
        _line.RefuseOptionsOfFollowing(parsed);
        var (method, limits, input) = await _arguments.ResolveAsync(_screen, parsed, client, cancellation);
        if (input.FaultyFiles > 0)
        {
            _screen.Error($"nothing was posted, because {VerdictText.Counted(input.FaultyFiles, "file")} cannot be read");
            return ExitCode.BadInput;
        }
        if (_picture.IsGiven(parsed) && input.Specimens.Count != 1)
        {
            throw new UsageException($"--picture goes with one specimen; the files hold {NumberText.Plain(input.Specimens.Count)}");
        }
        var specification = _arguments.Specification!.Resolve(parsed);
        var (origin, picture) = (_postedBy.Resolve(parsed), _picture.Resolve(parsed));
        var results = await _screen.WithProgressAsync("posting", input.Specimens.Count, async step =>
        {
            var done = new List<SpecimenResult>();
            var requests = input.Specimens.Select(specimen =>
            {
                var request = PostRequests.Of(specimen.Measurement, method, specification, origin);
                request.Picture = picture;
                return request;
            });
            await foreach (var answer in client.PostManyAsync(requests.ToAsyncEnumerable(), includeReadings: true, cancellation))
            {
                done.Add(ResultOf(input.Specimens[done.Count], answer, limits));
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

    private static SpecimenResult ResultOf(ScannedSpecimen specimen, PostReadingsResponse answer, ImmutableArray<Limit> limits)
    {
        var result = new SpecimenResult
        {
            Measurement = specimen.Measurement,
            FilePath = specimen.FilePath,
            Line = specimen.Line,
            Notes = specimen.Notes,
        };
        if (answer.Acknowledgement is { } acknowledgement)
        {
            return result with
            {
                Reading = acknowledgement.Reading,
                Evaluation = acknowledgement.Reading.Evaluation,
                AlreadyStored = acknowledgement.AlreadyStored,
                Signals = [.. acknowledgement.Signals],
                Verdict = LimitsVerdict.Of(acknowledgement.Reading.Evaluation, limits),
            };
        }
        var refusal = ClearViewCallException.From(answer.Refusal);
        return refusal is { Status: StatusCode.InvalidArgument, Violations.IsEmpty: false } ? result with { Violations = refusal.Violations } : throw refusal;
    }

    // A specification and a built-in method need no server; a stored method is fetched, since identifiers rest on its content.
    private async Task<Func<Measurement, PostReadingRequest>> RequestMakerAsync(ParseResult parsed, ClearViewClient client, CancellationToken cancellation)
    {
        if (_arguments.Specification!.Resolve(parsed) is { } specification)
        {
            return measurement => PostRequests.Of(measurement, specification, _postedBy.Resolve(parsed));
        }
        while (true)
        {
            try
            {
                var method = await _arguments.ResolveMethodAsync(parsed, client, cancellation);
                return measurement => PostRequests.Of(measurement, method, specification: null, _postedBy.Resolve(parsed));
            }
            catch (ClearViewCallException e) when (e.IsTransient)
            {
                _screen.Note($"{e.Message}; the method is asked for again, files stay where they are");
                await Task.Delay(TimeSpan.FromSeconds(5), cancellation);
            }
        }
    }

    private void Show(IReadOnlyCollection<SpecimenResult> results, ChosenMethod method, ImmutableArray<Limit> limits)
    {
        MethodPanel.Write(_screen, method.Method, limits, method.StoredName);
        var verdict = results.Select(result => result.Reading!.Verdict).FirstOrDefault(one => one is not null);
        if (verdict is not null)
        {
            MethodPanel.WriteRows(_screen, [("Specification", DecisionText.Name(verdict.SpecificationName)), ("Decision rule", DecisionText.Rule(verdict.DecisionRule))]);
        }
        (string Header, Func<SpecimenResult, string> Text) store = ("Store", result => result.AlreadyStored == true ? "there" : "new");
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
            verdict is null ? [store] : [store, ("Verdict", result => VerdictColumn.Of(result.Reading!.Verdict))],
            // Beside verdicts there is room for two values.
            verdict is null ? [Measurands.LuminousTransmittance, Measurands.Haze, Measurands.YellownessIndexE313] : [Measurands.LuminousTransmittance, Measurands.Haze]);
        notebook.Write(_screen, results.Count);
        var there = results.Count(result => result.AlreadyStored == true);
        _screen.Line($"{VerdictText.Counted(results.Count - there, "reading")} stored" + (there > 0 ? $", {NumberText.Plain(there)} had been stored before" : ""));
        VerdictText.WriteSummary(_screen, results);
        VerdictColumn.WriteReasons(_screen, results);
        ControlChartScreen.WriteRaised(_screen, results.SelectMany(result => result.Signals.Select(signal => (result.Specimen, signal))));
    }

    private static JsonObject ToJson(SpecimenResult result)
    {
        var node = JsonText.OfFileResult(result);
        node["alreadyStored"] = result.AlreadyStored;
        node["reading"] = JsonText.OfMessage(result.Reading);
        node["signals"] = new JsonArray([.. result.Signals.Select(JsonText.OfMessage)]);
        return node;
    }
}

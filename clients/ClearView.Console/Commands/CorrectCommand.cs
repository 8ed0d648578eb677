using System.CommandLine;
using System.Text.Json.Nodes;

using ClearView.Console.Judging;
using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.V1;

namespace ClearView.Console.Commands;

/// <summary>Posts a reading that takes the place of a stored one.</summary>
internal sealed class CorrectCommand : DocumentedCommand
{
    private readonly Argument<string> _id = new("reading-id") { Description = "The stored reading that is wrong, as list shows it." };
    private readonly Option<string> _reason = new("--reason") { HelpName = "TEXT", Required = true, Description = "Why it is wrong; stored with the new reading. Required." };
    private readonly SpecimenArguments _arguments = new(serverIsOptional: false)
    {
        Specification = new(
            "--specification", "NAME[@VERSION]",
            "Judge the new reading under this stored specification, whose method is taken.",
            StoredNames.Specification, "write a specification's name, or NAME@VERSION"),
    };

    private readonly PostedByOptions _postedBy = new();
    private readonly PictureFileOption _picture = new();
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public CorrectCommand(Screen screen)
        : base("correct", "Post a reading that takes the place of a stored one. The stored one stays, marked as superseded, and leaves series and charts.",
        [
            "clearview correct 019cae1a-7d20-7c1e-9b1a-5b8f0a6f3c11 film.csv --method astm \\\n    --reason \"wrong roll typed\" --person \"E. Marsh\"",
            "clearview correct 019cae1a-7d20-7c1e-9b1a-5b8f0a6f3c11 film.csv --specification lidding-38 \\\n    --reason \"lamp had not warmed up\" --person \"E. Marsh\" --override roll=15",
        ])
    {
        _screen = screen;
        Add(_id);
        _arguments.AddTo(this);
        BeginGroup("The correction, stored with the new reading", _reason);
        Add(_reason);
        _postedBy.AddTo(this);
        _picture.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var corrected = ShowCommand.ReadId(parsed.GetRequiredValue(_id)).ToString("D");
        var origin = _postedBy.Resolve(parsed);
        if (origin.Person.Length == 0)
        {
            throw new UsageException("--person: say who corrects the reading");
        }
        await using var client = _arguments.Connect(parsed)!;
        var (method, limits, input) = await _arguments.ResolveAsync(_screen, parsed, client, cancellation);
        if (input.FaultyFiles > 0 || input.Specimens is not [var specimen])
        {
            throw new UsageException($"a correction is of one specimen; the file holds {NumberText.Plain(input.Specimens.Count)} that can be read");
        }
        var request = PostRequests.Of(specimen.Measurement, method, _arguments.Specification!.Resolve(parsed), origin);
        if (request.ReadingId == corrected)
        {
            throw new UsageException("the file says the same as the stored reading; there is nothing to correct");
        }
        request.Corrects = new Correction { ReadingId = corrected, Reason = parsed.GetRequiredValue(_reason), Person = origin.Person };
        request.Picture = _picture.Resolve(parsed);
        var response = await client.PostAsync(request, cancellation);
        return Show(parsed, response, limits);
    }

    private int Show(ParseResult parsed, PostReadingResponse response, System.Collections.Immutable.ImmutableArray<Limit> limits)
    {
        var reading = response.Reading;
        var result = new SpecimenResult
        {
            Measurement = reading.Measurement,
            Reading = reading,
            Evaluation = reading.Evaluation,
            AlreadyStored = response.AlreadyStored,
            Signals = [.. response.Signals],
            Verdict = LimitsVerdict.Of(reading.Evaluation, limits),
        };
        if (_arguments.WantsJson(parsed))
        {
            JsonText.Write(_screen, new JsonObject { ["alreadyStored"] = response.AlreadyStored, ["reading"] = JsonText.OfMessage(reading) });
        }
        else
        {
            SpecimenDetail.Write(_screen, result, limits);
        }
        return Outcome.Report(_screen, [result], 0);
    }
}

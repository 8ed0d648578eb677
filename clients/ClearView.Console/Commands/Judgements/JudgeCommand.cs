using System.CommandLine;
using System.Globalization;
using System.Text.RegularExpressions;

using ClearView.Client;
using ClearView.Client.Files;
using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Console.Rendering.Decisions;
using ClearView.Contract.Decisions;
using ClearView.Contract.Validation;
using ClearView.Plotting.Decisions;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Console.Commands.Judgements;

/// <summary>Judges scan files under a specification; nothing is stored.</summary>
internal sealed partial class JudgeCommand : DocumentedCommand
{
    private readonly Argument<string[]> _paths = new("path") { Arity = ArgumentArity.OneOrMore, Description = "Scan files, or folders with scan files (docs/files.md), all of one product." };

    private readonly Option<string> _specification = new("--specification")
    {
        HelpName = "NAME[@VERSION]|FILE",
        Required = true,
        Description = "A stored specification, which needs a server; or a specification in a file of JSON, which is judged here unless a server is named.",
    };

    private readonly ScanOptions _scans = new();
    private readonly ServerOption _server = new($"The server that keeps the specification, or its method. [default with a name: {ServerOption.Variable} if it is set, else {ServerAddresses.Default}]");
    private readonly JsonOption _json = new();
    private readonly ChartFileOption _picture = new();
    private readonly Screen _screen;
    private readonly TimeProvider _clock;

    /// <summary>Creates the command.</summary>
    public JudgeCommand(Screen screen, TimeProvider clock)
        : base("judge", "Judge scan files under a specification: the mean of the specimens against each limit, with uncertainty, probability and risk.",
        [
            "clearview judge scans/ --specification lidding-38",
            "clearview judge scans/ --specification lidding-38.json",
            "clearview judge scans/ --specification lidding-38@2 --chart verdict.png --server 127.0.0.1:5180",
        ])
    {
        _screen = screen;
        _clock = clock;
        Add(_paths);
        BeginGroup("Specification and output", _specification);
        Add(_specification);
        _json.AddTo(this);
        _picture.AddTo(this);
        _server.AddTo(this);
        BeginGroup("Scan files", _scans.AddTo(this));
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var text = parsed.GetRequiredValue(_specification);
        var given = SpecificationFile.IsFile(text) ? SpecificationFile.Read(text) : null;
        await using var client = given is not null && !_server.IsGiven(parsed) ? null : _server.Connect(parsed);
        var input = ScanInput.Read(_screen, parsed.GetRequiredValue(_paths), _scans.Resolve(parsed));
        if (input.FaultyFiles > 0)
        {
            _screen.Error($"nothing was judged, because {VerdictText.Counted(input.FaultyFiles, "file")} cannot be read");
            return ExitCode.BadInput;
        }
        Measurement[] measurements = [.. input.Specimens.Select(specimen => specimen.Measurement)];
        JudgeSpecimensResponse response;
        try
        {
            response = (client, given) switch
            {
                (null, _) => await JudgeHereAsync(measurements, given!, input.Specimens, cancellation),
                (_, { } own) => await client.JudgeSpecimensAsync(measurements, own, cancellation),
                _ => await client.JudgeSpecimensAsync(measurements, StoredNames.Specification(text)!, cancellation),
            };
        }
        catch (ClearViewCallException e) when (e.Status == StatusCode.InvalidArgument && e.Violations.Length > 0)
        {
            throw Refusal.Of(InWords(e.Violations, input.Specimens));
        }
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(_screen, JsonText.OfMessage(response)!);
        }
        else
        {
            MethodPanel.WriteRows(_screen, [("Product", response.Specification.Product), ("Method", DecisionText.Versioned(response.Specification.MethodName.Name, response.Specification.MethodName.Version))]);
            VerdictScreen.Write(_screen, response.Verdict, text);
        }
        _picture.Write(_screen, parsed, ("", () => VerdictChart.Build(response.Verdict)));
        return response.Verdict.Outcome == VerdictOutcome.Conformity ? ExitCode.Ok : ExitCode.LimitFailed;
    }

    private async Task<JudgeSpecimensResponse> JudgeHereAsync(
        Measurement[] measurements, Specification specification, IReadOnlyList<ScannedSpecimen> specimens, CancellationToken cancellation)
    {
        var violations = new Violations();
        var method = specification.MethodName is { } name ? await MethodOptions.FindAsync(name, null) : null;
        var resolved = SpecificationReader.Read(specification, null, method, "specification", violations) ?? throw Refusal.Of(violations.ToImmutable());
        var outcome = SpecimensJudge.Judge(measurements, resolved, _clock, cancellation);
        return outcome.Response ?? throw Refusal.Of(InWords(outcome.Violations, specimens));
    }

    // "measurements[2].conditions.aperture_mm" helps nobody who named files.
    private static IEnumerable<FieldViolation> InWords(IEnumerable<FieldViolation> violations, IReadOnlyList<ScannedSpecimen> specimens) => violations.Select(violation =>
        MeasurementField().Match(violation.Field) is { Success: true } match
            && int.TryParse(match.Groups["index"].Value, CultureInfo.InvariantCulture, out var index) && index < specimens.Count
                ? new FieldViolation
                {
                    Field = $"{specimens[index].FilePath}, line {NumberText.Plain(specimens[index].Line)}, specimen {specimens[index].Measurement.Identification.Specimen}: {match.Groups["rest"].Value}",
                    Description = violation.Description,
                }
                : violation);

    [GeneratedRegex(@"^measurements\[(?<index>[0-9]{1,5})\]\.?(?<rest>.*)$", RegexOptions.CultureInvariant)]
    private static partial Regex MeasurementField();
}

using System.CommandLine;

using ClearView.Client;
using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Console.Rendering.Decisions;
using ClearView.Contract.Studies;
using ClearView.V1;

namespace ClearView.Console.Commands.Studies;

/// <summary>What the questions on sampling have in common: server, output, and the way from question to answer.</summary>
internal sealed class SamplingRun
{
    private readonly ServerOption _server = new($"Let this server compute, for example {ServerAddresses.Default}. Without it everything is computed here.");
    private readonly JsonOption _json = new();

    /// <summary>Adds the options to a command.</summary>
    public void AddTo(DocumentedCommand command)
    {
        command.BeginGroup("Server and output", _server.AddTo(command));
        _json.AddTo(command);
    }

    /// <summary>Asks, and shows the answer.</summary>
    public async Task<PlanSamplingResponse> AskAsync(Screen screen, ParseResult parsed, PlanSamplingRequest request, CancellationToken cancellation)
    {
        await using var client = _server.IsGiven(parsed) ? _server.Connect(parsed) : null;
        var response = client is null ? Refusal.Answer(SamplingStudy.Plan(request)) : await client.PlanSamplingAsync(request, cancellation);
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(screen, JsonText.OfMessage(response)!);
        }
        else
        {
            SamplingScreen.Write(screen, response);
        }
        return response;
    }
}

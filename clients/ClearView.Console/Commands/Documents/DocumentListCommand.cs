using System.CommandLine;
using System.Text.Json.Nodes;

using ClearView.Client;
using ClearView.Console.Options;
using ClearView.Console.Rendering;

using Google.Protobuf;

namespace ClearView.Console.Commands.Documents;

/// <summary>Lists what is stored under names, of one kind.</summary>
/// <typeparam name="TDocument">The message of a document with its name.</typeparam>
internal sealed class DocumentListCommand<TDocument> : DocumentedCommand
    where TDocument : IMessage
{
    private readonly Option<bool> _allVersions = new("--all-versions") { Description = "List every version instead of the newest." };
    private readonly ServerOption _server = new(isOptional: false);
    private readonly JsonOption _json = new();
    private readonly Screen _screen;
    private readonly string _jsonName;
    private readonly Func<ClearViewClient, bool, CancellationToken, IAsyncEnumerable<TDocument>> _list;
    private readonly Action<Screen, IReadOnlyCollection<TDocument>> _write;

    /// <summary>Creates the command.</summary>
    /// <param name="screen">Takes the list.</param>
    /// <param name="kind">The kind in words, plural, for example "control charts"; with hyphens it is the command above.</param>
    /// <param name="jsonName">Name of the list in JSON.</param>
    /// <param name="list">Asks the server; all versions or the newest.</param>
    /// <param name="write">Writes the list.</param>
    public DocumentListCommand(
        Screen screen,
        string kind,
        string jsonName,
        Func<ClearViewClient, bool, CancellationToken, IAsyncEnumerable<TDocument>> list,
        Action<Screen, IReadOnlyCollection<TDocument>> write)
        : base("list", $"List stored {kind} by name.",
        [
            $"clearview {kind.Replace(' ', '-')} list",
            $"clearview {kind.Replace(' ', '-')} list --all-versions --json",
        ])
    {
        _screen = screen;
        _jsonName = jsonName;
        _list = list;
        _write = write;
        Add(_allVersions);
        _server.AddTo(this);
        _json.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var documents = new List<TDocument>();
        await using var client = _server.Connect(parsed);
        await foreach (var document in _list(client, parsed.GetValue(_allVersions), cancellation))
        {
            documents.Add(document);
        }
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(_screen, new JsonObject { [_jsonName] = new JsonArray([.. documents.Select(document => JsonText.OfMessage(document))]) });
        }
        else
        {
            _write(_screen, documents);
        }
        return ExitCode.Ok;
    }
}

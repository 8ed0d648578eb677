using System.CommandLine;

using ClearView.Client;
using ClearView.Console.Options;
using ClearView.Console.Rendering;

using Google.Protobuf;

namespace ClearView.Console.Commands.Documents;

/// <summary>Shows one thing that is stored under a name, in full.</summary>
/// <typeparam name="TName">The message of its name.</typeparam>
/// <typeparam name="TDocument">The message of the document with its name.</typeparam>
internal sealed class DocumentShowCommand<TName, TDocument> : DocumentedCommand
    where TName : class, IMessage
    where TDocument : IMessage
{
    private readonly Argument<string> _name;
    private readonly ServerOption _server = new(isOptional: false);
    private readonly JsonOption _json = new();
    private readonly Screen _screen;
    private readonly string _kind;
    private readonly string _example;
    private readonly Func<string, TName?> _read;
    private readonly Func<ClearViewClient, TName, CancellationToken, Task<TDocument>> _get;
    private readonly Action<Screen, TDocument> _write;

    /// <summary>Creates the command.</summary>
    /// <param name="screen">Takes the document.</param>
    /// <param name="kind">The kind in words, singular, for example "reference"; with an s it is the command above.</param>
    /// <param name="description">What the command does.</param>
    /// <param name="example">A name, for examples.</param>
    /// <param name="read">Reads NAME or NAME@VERSION; <see langword="null"/> where it is neither.</param>
    /// <param name="get">Asks the server.</param>
    /// <param name="write">Writes the document.</param>
    public DocumentShowCommand(
        Screen screen,
        string kind,
        string description,
        string example,
        Func<string, TName?> read,
        Func<ClearViewClient, TName, CancellationToken, Task<TDocument>> get,
        Action<Screen, TDocument> write)
        : base("show", description,
        [
            $"clearview {kind}s show {example}",
            $"clearview {kind}s show {example}@2 --json",
        ])
    {
        _screen = screen;
        _kind = kind;
        _example = example;
        _read = read;
        _get = get;
        _write = write;
        _name = new("name") { HelpName = "NAME[@VERSION]", Description = $"The {kind}'s name; the newest version unless one is given." };
        Add(_name);
        _server.AddTo(this);
        _json.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var text = parsed.GetRequiredValue(_name);
        var name = _read(text)
            ?? throw new UsageException($"\"{text}\" is not a {_kind}'s name; write NAME or NAME@VERSION, for example {_example}");
        await using var client = _server.Connect(parsed);
        var document = await _get(client, name, cancellation);
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(_screen, JsonText.OfMessage(document)!);
        }
        else
        {
            _write(_screen, document);
        }
        return ExitCode.Ok;
    }
}

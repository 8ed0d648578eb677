using System.CommandLine;

using ClearView.Console.Options;
using ClearView.Console.Rendering;

using Spectre.Console;

namespace ClearView.Console.Commands;

/// <summary>Stores a method under a name.</summary>
internal sealed class MethodsStoreCommand : DocumentedCommand
{
    private readonly Argument<string> _name = new("name") { HelpName = "NAME", Description = "Name to store it under: a-z, digits, \"-\" and \".\", up to 60 characters." };
    private readonly Option<string> _description = new("--description") { HelpName = "TEXT", Required = true, Description = "What the method is for, in a line." };
    private readonly Option<string> _by = new("--by") { HelpName = "NAME", Required = true, Description = "Who stores it." };
    private readonly MethodOptions _method = new();
    private readonly ServerOption _server = new(isOptional: false);
    private readonly JsonOption _json = new();
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public MethodsStoreCommand(Screen screen)
        : base("store", "Store a method on the server under a name, as its next version. Versions are never changed.",
        [
            "clearview methods store line-3 --method astm --observer 10 --description \"Line 3\" --by QA",
            "clearview methods store barrier --method iso --light-barrier-limit 10 --description Amber --by QA",
        ])
    {
        _screen = screen;
        Add(_name);
        BeginGroup("Name", _description);
        Add(_description);
        Add(_by);
        _method.AddTo(this);
        BeginGroup("Server and output", _server.AddTo(this));
        _json.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var name = parsed.GetRequiredValue(_name);
        if (MethodOptions.ParseName(name) is not { Version: 0 })
        {
            throw new UsageException($"\"{name}\" cannot be a method's name; write a-z, digits, \"-\" and \".\", beginning with a letter, without a version");
        }
        if (MethodOptions.FindBuiltIn(name) is not null)
        {
            throw new UsageException($"{name} is built in; store the method under another name");
        }
        await using var client = _server.Connect(parsed);
        var method = await _method.ResolveAsync(parsed, wanted => client.GetMethodAsync(wanted, cancellation));
        var response = await client.StoreMethodAsync(
            name, parsed.GetRequiredValue(_description), method.Method, parsed.GetRequiredValue(_by), cancellation);
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(_screen, JsonText.OfMessage(response)!);
            return ExitCode.Ok;
        }
        MethodsShowCommand.Write(_screen, response.Method);
        _screen.Line();
        _screen.Line(response.AlreadyStored
            ? "The newest version held the same already: nothing was stored."
            : $"Stored as {Markup.Escape(MethodText.Name(response.Method.MethodName))}.");
        return ExitCode.Ok;
    }
}

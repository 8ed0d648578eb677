using System.CommandLine;

using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.V1;

namespace ClearView.Console.Commands;

/// <summary>Shows one method in full.</summary>
internal sealed class MethodsShowCommand : DocumentedCommand
{
    private readonly Argument<string> _name = new("name") { HelpName = "NAME[@VERSION]", Description = "The method's name; of a method that a server keeps, the newest version unless one is given." };
    private readonly ServerOption _server = new("The server that keeps the method, for example 127.0.0.1:5180. A built-in one needs none.");
    private readonly JsonOption _json = new();
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public MethodsShowCommand(Screen screen)
        : base("show", "Show one method in full.",
        [
            "clearview methods show astm",
            "clearview methods show line-3@2 --server 127.0.0.1:5180 --json",
        ])
    {
        _screen = screen;
        Add(_name);
        _server.AddTo(this);
        _json.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    /// <summary>Writes a method with what it is for.</summary>
    public static void Write(Screen screen, NamedMethod method)
    {
        List<(string Label, string Text)> rows = [("Method", MethodText.Name(method.MethodName)), ("Description", method.Description)];
        rows.Add(("Stored", method.BuiltIn ? "built in" : $"{SpecimenDetail.Time(method.StoredAt)} by {method.StoredBy}"));
        rows.AddRange(MethodText.Lines(method.Method));
        MethodPanel.WriteRows(screen, rows);
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var text = parsed.GetRequiredValue(_name);
        var name = MethodOptions.ParseName(text)
            ?? throw new UsageException($"\"{text}\" is not a method's name; write NAME or NAME@VERSION, for example astm");
        var method = await FindAsync(parsed, name, cancellation);
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(_screen, JsonText.OfMessage(method)!);
        }
        else
        {
            Write(_screen, method);
        }
        return ExitCode.Ok;
    }

    private async Task<NamedMethod> FindAsync(ParseResult parsed, MethodName name, CancellationToken cancellation)
    {
        if (!_server.IsGiven(parsed))
        {
            return await MethodOptions.FindAsync(name, null);
        }
        await using var client = _server.Connect(parsed);
        return await MethodOptions.FindAsync(name, wanted => client.GetMethodAsync(wanted, cancellation));
    }
}

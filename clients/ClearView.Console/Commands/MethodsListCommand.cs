using System.CommandLine;
using System.Text.Json.Nodes;

using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Contract.Methods;
using ClearView.V1;

using Spectre.Console;

namespace ClearView.Console.Commands;

/// <summary>Lists methods.</summary>
internal sealed class MethodsListCommand : DocumentedCommand
{
    private readonly Option<bool> _allVersions = new("--all-versions") { Description = "List every version that the server keeps instead of the newest." };
    private readonly ServerOption _server = new("Also list the methods that this server keeps, for example 127.0.0.1:5180. Without it, the built-in ones.");
    private readonly JsonOption _json = new();
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public MethodsListCommand(Screen screen)
        : base("list", "List methods by name: the built-in ones, then those that a server keeps.",
        [
            "clearview methods list",
            "clearview methods list --server 127.0.0.1:5180 --all-versions --json",
        ])
    {
        _screen = screen;
        Add(_allVersions);
        _server.AddTo(this);
        _json.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var methods = new List<NamedMethod>();
        if (_server.IsGiven(parsed))
        {
            await using var client = _server.Connect(parsed);
            await foreach (var method in client.ListMethodsAsync(parsed.GetValue(_allVersions), cancellation))
            {
                methods.Add(method);
            }
        }
        else if (parsed.GetValue(_allVersions))
        {
            throw new UsageException("built-in methods have no versions; --all-versions needs --server");
        }
        else
        {
            methods.AddRange(BuiltInMethods.All.Select(method => method.ToNamedMethod()));
        }
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(_screen, new JsonObject { ["methods"] = new JsonArray([.. methods.Select(JsonText.OfMessage)]) });
            return ExitCode.Ok;
        }
        var table = new Table().Border(TableBorder.Simple).Collapse();
        table.AddColumn(new TableColumn("Name").NoWrap().PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Version").NoWrap().PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Description").PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Stored").PadLeft(0).PadRight(0));
        foreach (var method in methods)
        {
            table.AddRow(
                NameText.Of(_screen, method.MethodName.Name),
                method.BuiltIn ? "built in" : NumberText.Plain(method.MethodName.Version),
                Markup.Escape(method.Description),
                method.BuiltIn ? "" : Markup.Escape($"{SpecimenDetail.Time(method.StoredAt)} by {method.StoredBy}"));
        }
        _screen.Write(table);
        return ExitCode.Ok;
    }
}

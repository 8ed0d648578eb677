using System.CommandLine;

using ClearView.Contract.Methods;
using ClearView.V1;

namespace ClearView.Plotting.Commands;

/// <summary>A built-in method by its name.</summary>
internal sealed class NamedMethodChoice : IMethodChoice
{
    private readonly Option<string?> _name = new("--method", "-m")
    {
        HelpName = "NAME",
        Description = $"Method for files, required with them: {string.Join(", ", BuiltInMethods.All.Select(method => method.Name))}.",
    };

    public void AddTo(Command command)
    {
        _name.AcceptOnlyFromAmong([.. BuiltInMethods.All.Select(method => method.Name)]);
        command.Add(_name);
    }

    public Method? Resolve(ParseResult parsed) =>
        parsed.GetValue(_name) is { } name ? BuiltInMethods.Find(name)!.Method : null;
}

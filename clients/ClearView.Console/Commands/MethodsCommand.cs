using ClearView.Console.Rendering;

namespace ClearView.Console.Commands;

/// <summary>Methods under names: built in, or kept by a server.</summary>
internal sealed class MethodsCommand : DocumentedCommand
{
    /// <summary>Creates the command.</summary>
    public MethodsCommand(Screen screen)
        : base("methods", "List, show and store methods under names.",
        [
            "clearview methods list",
            "clearview methods show astm",
            "clearview methods store line-3 --method astm --observer 10 --description \"Line 3\" --by QA",
        ])
    {
        Add(new MethodsListCommand(screen));
        Add(new MethodsShowCommand(screen));
        Add(new MethodsStoreCommand(screen));
    }
}

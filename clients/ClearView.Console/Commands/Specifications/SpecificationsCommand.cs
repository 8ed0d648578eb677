using ClearView.Console.Rendering;

namespace ClearView.Console.Commands.Specifications;

/// <summary>Specifications that a server keeps.</summary>
internal sealed class SpecificationsCommand : DocumentedCommand
{
    /// <summary>Creates the command.</summary>
    public SpecificationsCommand(Screen screen)
        : base("specifications", "List, show and store specifications: what a product must meet, and the rule that decides.",
        [
            "clearview specifications list",
            "clearview specifications show lidding-38",
            "clearview specifications store lidding-38 --file lidding-38.json --description \"Lidding film\" --by QA",
        ])
    {
        Add(new SpecificationsListCommand(screen));
        Add(new SpecificationsShowCommand(screen));
        Add(new SpecificationsStoreCommand(screen));
    }
}

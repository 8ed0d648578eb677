using ClearView.Console.Commands.Documents;
using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Console.Rendering.Decisions;
using ClearView.V1;

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
            "clearview specifications store l38 --file l38.json --description \"Lidding film\" --by QA",
        ])
    {
        Add(new DocumentListCommand<NamedSpecification>(
            screen, "specifications", "specifications", (client, all, cancellation) => client.ListSpecificationsAsync(all, cancellation), SpecificationScreen.WriteList));
        Add(new DocumentShowCommand<SpecificationName, NamedSpecification>(
            screen,
            "specification",
            "Show one specification in full; its JSON is a file that judge takes.",
            "lidding-38",
            StoredNames.Specification,
            (client, name, cancellation) => client.GetSpecificationAsync(name, cancellation),
            SpecificationScreen.Write));
        Add(new SpecificationsStoreCommand(screen));
    }
}

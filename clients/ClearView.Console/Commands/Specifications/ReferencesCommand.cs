using ClearView.Console.Commands.Documents;
using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Console.Rendering.Decisions;
using ClearView.V1;

namespace ClearView.Console.Commands.Specifications;

/// <summary>References that colour differences are taken from.</summary>
internal sealed class ReferencesCommand : DocumentedCommand
{
    /// <summary>Creates the command.</summary>
    public ReferencesCommand(Screen screen)
        : base("references", "List, show and store references: colours of stored readings, which colour differences are taken from.",
        [
            "clearview references list",
            "clearview references show pet-master",
            "clearview references store m 019cae1a-7d20-7c1e-9b1a-5b8f0a6f3c11 --description Master --by QA",
        ])
    {
        Add(new DocumentListCommand<NamedReference>(
            screen, "references", "references", (client, all, cancellation) => client.ListReferencesAsync(all, cancellation), SpecificationScreen.WriteList));
        Add(new DocumentShowCommand<ReferenceName, NamedReference>(
            screen,
            "reference",
            "Show one reference in full.",
            "pet-master",
            StoredNames.Reference,
            (client, name, cancellation) => client.GetReferenceAsync(name, cancellation),
            SpecificationScreen.Write));
        Add(new ReferencesStoreCommand(screen));
    }
}

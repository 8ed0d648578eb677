using ClearView.Console.Rendering;

namespace ClearView.Console.Commands.Records;

/// <summary>Stores as a whole, without a server.</summary>
internal sealed class RecordsCommand : DocumentedCommand
{
    /// <summary>Creates the command.</summary>
    public RecordsCommand(Screen screen)
        : base("records", "Copy whole stores, and retire months of a database.",
        [
            "clearview records copy line3.db postgres://clearview@db.plant/line3",
            "clearview records retire --store postgres://clearview@db.plant/line3 --before 2025-01 --out old",
        ])
    {
        Add(new RecordsCopyCommand(screen));
        Add(new RecordsRetireCommand(screen));
    }
}

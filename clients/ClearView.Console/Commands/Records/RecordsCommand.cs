using ClearView.Console.Rendering;

namespace ClearView.Console.Commands.Records;

/// <summary>Stores as a whole, without a server.</summary>
internal sealed class RecordsCommand : DocumentedCommand
{
    /// <summary>Creates the command.</summary>
    public RecordsCommand(Screen screen)
        : base("records", "Copy whole stores.",
        [
            "clearview records copy line3.db postgres://clearview@db.plant/line3",
            "clearview records copy --help",
        ])
    {
        Add(new RecordsCopyCommand(screen));
    }
}

using ClearView.Console.Rendering;

namespace ClearView.Console.Commands.Keys;

/// <summary>Keys of those who call a server.</summary>
internal sealed class KeysCommand : DocumentedCommand
{
    /// <summary>Creates the command.</summary>
    public KeysCommand(Screen screen, TimeProvider clock)
        : base("keys", "Say who may call a server: make, list and revoke keys.",
        [
            "clearview keys bootstrap --store line3.db --out admin.key",
            "clearview keys create line-3 --role line --station \"line 3\" --description \"Line 3\" \\\n--out line-3.key --key-file admin.key",
            "clearview keys list --key-file admin.key",
        ])
    {
        Add(new KeysBootstrapCommand(screen, clock));
        Add(new KeysCreateCommand(screen));
        Add(new KeysListCommand(screen));
        Add(new KeysRevokeCommand(screen));
    }
}

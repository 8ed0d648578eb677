using ClearView.Console.Rendering;

namespace ClearView.Console.Commands.Audit;

/// <summary>Proof that nothing that was recorded has been changed since.</summary>
internal sealed class AuditCommand : DocumentedCommand
{
    /// <summary>Creates the command.</summary>
    public AuditCommand(Screen screen, TimeProvider clock)
        : base("audit", "Prove that nothing that was recorded has been changed since.",
        [
            "clearview audit verify",
            "clearview audit heads --out heads.txt",
        ])
    {
        Add(new AuditVerifyCommand(screen));
        Add(new AuditHeadsCommand(screen, clock));
        Add(new AuditExtractCommand(screen));
        Add(new AuditCheckCommand(screen));
    }
}

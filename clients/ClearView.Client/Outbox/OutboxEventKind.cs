namespace ClearView.Client.Outbox;

/// <summary>What happened in an outbox.</summary>
public enum OutboxEventKind
{
    /// <summary>A reading is on the disk and will be sent.</summary>
    Accepted,

    /// <summary>The server has stored a reading.</summary>
    Stored,

    /// <summary>The server had stored the reading before; nothing changed.</summary>
    AlreadyStored,

    /// <summary>The server refuses a reading for good; it lies in the refused folder with the reasons.</summary>
    Refused,

    /// <summary>A line waits, since the server cannot be reached or failed; sending is tried again.</summary>
    Waiting,

    /// <summary>Bytes that are no whole record were set aside in the quarantine folder.</summary>
    Quarantined,

    /// <summary>A record that was being written when the machine stopped was cut off; it had not been accepted.</summary>
    TailCut,

    /// <summary>The outbox is nearly full, or the disk is, or files of the outbox cannot be read or written.</summary>
    Alarm,

    /// <summary>There is room again, or the files can be read and written again.</summary>
    AlarmEnded,
}

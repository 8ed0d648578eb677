namespace ClearView.Server.Security;

/// <summary>What a stream is for. Each kind has places of its own, so that none takes those of another.</summary>
internal enum StreamKind
{
    /// <summary>It posts, evaluates, verifies or exports.</summary>
    Work,

    /// <summary>It watches readings, for as long as somebody looks.</summary>
    Watch,

    /// <summary>It watches the health of the server; nobody needs a key for it.</summary>
    Health,
}

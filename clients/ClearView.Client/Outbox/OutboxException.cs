namespace ClearView.Client.Outbox;

/// <summary>The outbox cannot be opened, or does not take a reading. The message says why, in plain words.</summary>
public sealed class OutboxException : Exception
{
    internal OutboxException(string message, bool isFull = false, Exception? inner = null)
        : base(message, inner) => IsFull = isFull;

    /// <summary>Whether there is no room at present, so that the same reading may be taken later.</summary>
    public bool IsFull { get; }
}

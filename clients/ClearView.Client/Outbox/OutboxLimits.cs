namespace ClearView.Client.Outbox;

/// <summary>The limits of the poster that used a folder last, for whoever asks how the outbox stands.</summary>
/// <param name="LimitBytes">What the folder may hold, bytes.</param>
/// <param name="LeastFreeBytes">What has to stay free on the disk, bytes.</param>
internal sealed record OutboxLimits(long LimitBytes, long LeastFreeBytes);

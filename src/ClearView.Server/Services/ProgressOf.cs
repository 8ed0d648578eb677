namespace ClearView.Server.Services;

/// <summary>Tells progress at once, on the thread of whoever reports it.</summary>
/// <typeparam name="T">What is told.</typeparam>
internal sealed class ProgressOf<T>(Action<T> report) : IProgress<T>
{
    /// <inheritdoc/>
    public void Report(T value) => report(value);
}

namespace ClearView.Benchmarks.Measuring;

/// <summary>A load cannot be run as it was asked for; the message says why in words.</summary>
internal sealed class LoadException(string message) : Exception(message);

namespace ClearView.Server.Extracts;

/// <summary>What came of checking an extract.</summary>
/// <param name="ReadingCount">Readings that hold.</param>
/// <param name="Fault">The first thing that does not hold, in words; <see langword="null"/> when everything does.</param>
public sealed record ExtractCheck(long ReadingCount, string? Fault)
{
    /// <summary>Readings among them whose signals hold as well.</summary>
    public long SignalCount { get; init; }
}

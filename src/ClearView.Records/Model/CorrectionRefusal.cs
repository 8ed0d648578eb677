using ClearView.Records.Retention;

namespace ClearView.Records.Model;

/// <summary>A correction that is not taken; nothing was stored.</summary>
/// <param name="Fault">Why.</param>
/// <param name="SupersededBy">The reading that has taken the place already; <see langword="null"/> where there is none.</param>
public sealed record CorrectionRefusal(CorrectionFault Fault, Guid? SupersededBy)
{
    /// <summary>With what month the reading was retired; <see langword="null"/> where it was not.</summary>
    public RetiredMonth? Retired { get; init; }
}

namespace ClearView.Quality.Capability;

/// <summary>Why there are no indices.</summary>
/// <param name="Reason">The kind of reason.</param>
/// <param name="Explanation">The reason in words, with the figures.</param>
public sealed record CapabilityRefusal(CapabilityRefusalReason Reason, string Explanation);

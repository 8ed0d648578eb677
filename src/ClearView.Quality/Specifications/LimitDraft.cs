namespace ClearView.Quality.Specifications;

/// <summary>One limit as somebody wrote it, not yet checked.</summary>
/// <param name="MeasurandId">Identifier of the registry, for example "haze".</param>
public sealed record LimitDraft(string MeasurandId)
{
    /// <summary>Lower limit in the measurand's unit.</summary>
    public double? Lower { get; init; }

    /// <summary>Upper limit in the measurand's unit.</summary>
    public double? Upper { get; init; }

    /// <summary>Target in the measurand's unit.</summary>
    public double? Target { get; init; }

    /// <summary>The colour that a colour difference is taken from; for colour differences only.</summary>
    public ColourReference? Reference { get; init; }
}

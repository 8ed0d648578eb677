using ClearView.Quality.Descriptive;
using ClearView.Quality.Distributions;

namespace ClearView.Quality.Lots;

/// <summary>What a comparison of lots is asked for.</summary>
public sealed record LotComparisonOptions
{
    /// <summary>Confidence of intervals; 1 − α of tests. 0.95 unless stated; strictly between 0 and 1.</summary>
    public double Confidence { get; init => field = Probability.Inside(value); } = 0.95;

    /// <summary>Power asked of the number of specimens. 0.8 unless stated; strictly between 0 and 1.</summary>
    public double Power { get; init => field = Probability.Inside(value); } = 0.8;

    /// <summary>Difference below which lots count as equivalent, in the measurand's unit, above 0; none unless stated.</summary>
    public double? EquivalenceMargin { get; init => field = value is { } margin ? Guard.Positive(margin) : null; }

    /// <summary>Expanded uncertainty (k = 2) of one reading of the instrument, in the measurand's unit, above 0; none unless stated.</summary>
    public double? ExpandedUncertainty { get; init => field = value is { } uncertainty ? Guard.Positive(uncertainty) : null; }

    internal double Significance => 1 - Confidence;
}

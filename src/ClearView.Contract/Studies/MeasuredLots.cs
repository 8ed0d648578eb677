using System.Collections.Immutable;

using ClearView.Optics.Evaluations;
using ClearView.Quality.Lots;

namespace ClearView.Contract.Studies;

/// <summary>The values of all lots of one measurand.</summary>
/// <param name="Measurand">What was measured; never an angle.</param>
/// <param name="Lots">The lots, 2-20, each with a name of its own.</param>
public sealed record MeasuredLots(Measurand Measurand, ImmutableArray<Lot> Lots)
{
    /// <summary>Expanded uncertainty (k = 2) of one reading as the readings themselves have it, in the measurand's unit, above 0; <see langword="null"/> where unknown.</summary>
    public double? InstrumentExpandedUncertainty { get; init; }
}

using System.Collections.Immutable;

namespace ClearView.Optics.Evaluations;

/// <summary>A measurand's mean over several specimens: evaluated per specimen, then averaged (ASTM D1003, ISO 14782, report clauses).</summary>
/// <param name="Measurand">The measurand.</param>
/// <param name="Mean">Mean of the specimens' values.</param>
/// <param name="StandardDeviation">Standard deviation with n − 1; NaN for one specimen.</param>
/// <param name="Count">Number of specimens.</param>
public sealed record SpecimenMean(Measurand Measurand, double Mean, double StandardDeviation, int Count)
{
    /// <summary>Means of every measurand that all specimens have a value for. Hue angles are left out: they have no plain mean.</summary>
    /// <param name="specimens">One evaluation per specimen, all under one method.</param>
    /// <exception cref="ArgumentException">There is no specimen, or the methods differ.</exception>
    public static ImmutableArray<SpecimenMean> Of(ImmutableArray<Evaluation> specimens)
    {
        if (specimens.IsDefaultOrEmpty || specimens.Any(e => e.Method != specimens[0].Method))
        {
            throw new ArgumentException("A mean needs one or more specimens, all evaluated under one method.", nameof(specimens));
        }

        return
        [
            .. specimens
                .SelectMany(e => e.Values)
                .GroupBy(value => value.Measurand)
                .Where(group => group.Count() == specimens.Length && !group.Key.IsAngle)
                .Select(group => Of(group.Key, [.. group.Select(value => value.Value)])),
        ];
    }

    private static SpecimenMean Of(Measurand measurand, double[] values)
    {
        double mean = values.Average();
        double square = values.Sum(value => (value - mean) * (value - mean));
        return new SpecimenMean(measurand, mean, Math.Sqrt(square / (values.Length - 1)), values.Length);
    }
}

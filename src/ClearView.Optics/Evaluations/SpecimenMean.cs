using System.Collections.Immutable;

using ClearView.Optics.Uncertainty;

namespace ClearView.Optics.Evaluations;

/// <summary>A measurand's mean over several specimens: evaluated per specimen, then averaged (ASTM D1003, ISO 14782, report clauses).</summary>
/// <param name="Measurand">The measurand.</param>
/// <param name="Mean">Mean of the specimens' values.</param>
/// <param name="StandardDeviation">Standard deviation with n − 1; NaN for one specimen.</param>
/// <param name="Count">Number of specimens.</param>
public sealed record SpecimenMean(Measurand Measurand, double Mean, double StandardDeviation, int Count)
{
    /// <summary>Standard error of the mean, s/√n (JCGM 100, 4.2.3); NaN for one specimen.</summary>
    public double StandardError => StandardDeviation / Math.Sqrt(Count);

    /// <summary>Uncertainty of the mean; <see langword="null"/> where none was asked for, for one specimen, and where the
    /// measurand has no derivative at one of them.</summary>
    public MeasurandUncertainty? Uncertainty { get; init; }

    /// <summary>Means of every measurand that all specimens have a value for. Hue angles are left out: they have no plain mean.</summary>
    /// <param name="specimens">One evaluation per specimen, all under one method (the measured thickness that it scales from is each specimen's own); their scans may be on different grids.</param>
    /// <exception cref="ArgumentException">There is no specimen, or the methods differ.</exception>
    public static ImmutableArray<SpecimenMean> Of(ImmutableArray<Evaluation> specimens)
    {
        if (specimens.IsDefaultOrEmpty || specimens.Any(e => e.Method.WithThickness(null) != specimens[0].Method.WithThickness(null)))
        {
            throw new ArgumentException("A mean needs one or more specimens, all evaluated under one method.", nameof(specimens));
        }

        return
        [
            .. specimens
                .SelectMany(e => e.Values.DistinctBy(value => value.Measurand))
                .GroupBy(value => value.Measurand)
                .Where(group => group.Count() == specimens.Length && !group.Key.IsAngle)
                .Select(group => Of(group.Key, [.. group.Select(value => value.Value)])),
        ];
    }

    /// <summary>Means as <see cref="Of(ImmutableArray{Evaluation})"/> gives them, each with its uncertainty.</summary>
    /// <param name="specimens">One evaluation per specimen, all under one method and measured with one instrument.</param>
    /// <param name="inputs">What is known of the instrument's errors; see <see cref="SpecimenMeanUncertainty"/> for what is taken from it.</param>
    /// <param name="coverageProbability">Coverage probability, in (0, 1).</param>
    /// <exception cref="ArgumentException">There is no specimen, or the methods differ.</exception>
    public static ImmutableArray<SpecimenMean> Of(
        ImmutableArray<Evaluation> specimens, UncertaintyInputs inputs, double coverageProbability)
    {
        ArgumentNullException.ThrowIfNull(inputs);
        ImmutableArray<SpecimenMean> means = Of(specimens);
        if (specimens.Length < 2)
        {
            return means;
        }

        var propagation = new SpecimenMeanUncertainty(specimens, inputs, coverageProbability);
        return [.. means.Select(mean => mean with { Uncertainty = propagation.Of(mean) })];
    }

    private static SpecimenMean Of(Measurand measurand, double[] values)
    {
        double mean = values.Average();
        double square = values.Sum(value => (value - mean) * (value - mean));
        return new SpecimenMean(measurand, mean, Math.Sqrt(square / (values.Length - 1)), values.Length);
    }
}

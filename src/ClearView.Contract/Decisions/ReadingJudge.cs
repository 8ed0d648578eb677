using System.Collections.Immutable;

using ClearView.Optics.Evaluations;
using ClearView.Quality.Specifications;

using Evaluation = ClearView.V1.Evaluation;
using Measurement = ClearView.V1.Measurement;
using SpecimenMean = ClearView.V1.SpecimenMean;
using Uncertainty = ClearView.V1.Uncertainty;
using Verdict = ClearView.V1.Verdict;

namespace ClearView.Contract.Decisions;

/// <summary>Holds evaluations against a specification.</summary>
/// <remarks>The one path that the server and the offline commands of the console share. Thread-safe, stateless.</remarks>
public static class ReadingJudge
{
    /// <summary>Judges one evaluation.</summary>
    /// <param name="specification">The specification.</param>
    /// <param name="measurement">The measurement; what it says of the number of specimens and the product counts.</param>
    /// <param name="evaluation">Its evaluation.</param>
    /// <returns>The verdict; what stands in the way of one is its reason.</returns>
    public static Verdict Judge(ResolvedSpecification specification, Measurement measurement, Evaluation evaluation)
    {
        ArgumentNullException.ThrowIfNull(specification);
        ArgumentNullException.ThrowIfNull(measurement);
        ArgumentNullException.ThrowIfNull(evaluation);
        int specimens = measurement.Conditions is { HasSpecimenCount: true } conditions ? (int)conditions.SpecimenCount : 1;
        bool sameMethod = specification.Method.Equals(evaluation.Method);
        return Judge(
            specification,
            specimens,
            sameMethod ? specification.Domain.MethodName : evaluation.MethodName?.Name ?? "of the request",
            sameMethod ? specification.Domain.MethodVersion : (int)(evaluation.MethodName?.Version ?? 0),
            [.. evaluation.Values.SelectMany(value => Quantity(specification, value.Measurand, value.Value, value.Uncertainty))],
            OtherProducts(specification, [measurement]));
    }

    /// <summary>Judges the means of several specimens.</summary>
    internal static Verdict Judge(ResolvedSpecification specification, IReadOnlyList<Measurement> measurements, IEnumerable<SpecimenMean> means) =>
        Judge(
            specification,
            measurements.Count,
            specification.Domain.MethodName,
            specification.Domain.MethodVersion,
            [.. means.SelectMany(mean => Quantity(specification, mean.Measurand, mean.Mean, mean.Uncertainty))],
            OtherProducts(specification, measurements));

    private static Verdict Judge(
        ResolvedSpecification specification,
        int specimens,
        string methodName,
        int methodVersion,
        ImmutableArray<MeasuredQuantity> values,
        ImmutableArray<string> obstacles)
    {
        JudgedReading reading = new(methodName, methodVersion, specimens, values);
        return VerdictWriter.Write(specification, Quality.Specifications.Judge.Of(reading, specification.Domain, specification.Rule), specimens, obstacles);
    }

    // A difference that the method computed is the one to the specification's reference, since that is in the method.
    private static IEnumerable<MeasuredQuantity> Quantity(ResolvedSpecification specification, string measurandId, double value, Uncertainty? uncertainty)
    {
        if (!Measurand.TryFind(measurandId, out Measurand? measurand))
        {
            yield break;
        }

        Quality.Specifications.SpecificationLimit? referring = specification.Domain.Limits.FirstOrDefault(limit => limit.Measurand == measurand && limit.Reference is not null);
        MeasuredQuantity quantity = new(measurand, value) { ReferenceName = referring?.Reference?.Name };
        yield return uncertainty is null
            ? quantity
            : quantity with
            {
                StandardUncertainty = uncertainty.StandardUncertainty,
                DegreesOfFreedom = uncertainty.HasEffectiveDegreesOfFreedom ? uncertainty.EffectiveDegreesOfFreedom : double.PositiveInfinity,
                CoverageFactor = uncertainty.CoverageFactor,
            };
    }

    private static ImmutableArray<string> OtherProducts(ResolvedSpecification specification, IEnumerable<Measurement> measurements) =>
    [
        .. measurements.Select(measurement => measurement.Identification?.Product ?? "")
            .Where(product => product.Length > 0 && product != specification.Wire.Product)
            .Distinct(StringComparer.Ordinal)
            .Select(product => $"the product of the reading is \"{product}\", that of the specification \"{specification.Wire.Product}\""),
    ];
}

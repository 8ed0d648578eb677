using ClearView.Contract.Validation;
using ClearView.Optics.Evaluations;
using ClearView.Quality.Capability;
using ClearView.Quality.ControlCharts;
using ClearView.Quality.Series;

namespace ClearView.Contract.Studies;

/// <summary>Capability of a process, from request to answer.</summary>
/// <remarks>The one path that the server and the offline commands of the console share. Thread-safe, stateless, one pass over the readings.</remarks>
public static class CapabilityStudy
{
    /// <summary>What it needs of a series beside the values.</summary>
    public const SeriesParts Parts = SeriesParts.None;

    /// <summary>Answers a request that brings its readings and limits along.</summary>
    /// <param name="request">The request; one for stored readings or limits is refused.</param>
    /// <returns>The capability, or every field at fault.</returns>
    public static StudyOutcome<V1.EstimateCapabilityResponse> Estimate(V1.EstimateCapabilityRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        var violations = new Violations();
        SeriesQuestion? question = Read(request, violations);
        SeriesSources.RefuseStored(question, request.SpecificationName, violations);
        return violations.IsEmpty
            ? Estimate(question!.Measurand, question.Given!, request.Limits, request.Options)
            : StudyOutcome<V1.EstimateCapabilityResponse>.Refused(violations.ToImmutable());
    }

    /// <summary>Checks a request without looking at what is stored.</summary>
    /// <param name="request">The request as it came.</param>
    /// <param name="violations">Takes every field at fault.</param>
    /// <returns>What is asked; meaningful only where no violation was added.</returns>
    public static SeriesQuestion? Read(V1.EstimateCapabilityRequest request, Violations violations)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(violations);
        SeriesQuestion? question = SeriesSources.Read(request.Stored, request.Given, Parts, violations);
        SeriesSources.CheckLimits(request.Limits, request.SpecificationName, required: true, violations);
        ReadOptions(request.Options, violations);
        return question;
    }

    /// <summary>Estimates the capability of readings that are at hand.</summary>
    /// <param name="measurand">What was measured.</param>
    /// <param name="series">The readings in the order of measurement; none leads to a refusal in the answer.</param>
    /// <param name="limits">The limits.</param>
    /// <param name="options">How; the defaults where <see langword="null"/>.</param>
    /// <returns>The capability, or every field of limits and options at fault.</returns>
    public static StudyOutcome<V1.EstimateCapabilityResponse> Estimate(
        Measurand measurand, SeriesColumns series, V1.SeriesLimits limits, V1.CapabilityOptions? options)
    {
        ArgumentNullException.ThrowIfNull(measurand);
        ArgumentNullException.ThrowIfNull(series);
        ArgumentNullException.ThrowIfNull(limits);
        var violations = new Violations();
        SeriesLimitsRules.Check(limits, "limits", violations);
        CapabilityOptions how = ReadOptions(options, violations);
        if (!violations.IsEmpty)
        {
            return StudyOutcome<V1.EstimateCapabilityResponse>.Refused(violations.ToImmutable());
        }

        CapabilityResult result = ProcessCapability.Of(
            series.Values,
            new CapabilityLimits(
                limits.HasLower ? limits.Lower : null, limits.HasUpper ? limits.Upper : null, limits.HasTarget ? limits.Target : null),
            how);
        return StudyOutcome<V1.EstimateCapabilityResponse>.Accepted(new V1.EstimateCapabilityResponse
        {
            Capability = CapabilityWriter.Write(measurand, limits, result, Histogram.Of(series.Values)),
        });
    }

    private static CapabilityOptions ReadOptions(V1.CapabilityOptions? options, Violations violations)
    {
        options ??= new V1.CapabilityOptions();
        double confidence = violations.ReadLevel("options.confidence_percent", options.ConfidencePercent, PercentRules.DefaultConfidence);
        if (options.Model != V1.CapabilityModel.Unspecified)
        {
            violations.RequireNamed("options.model", options.Model);
        }

        if (options.SubgroupCount > ChartFactors.LargestRangeSize)
        {
            violations.Add("options.subgroup_count", $"was {options.SubgroupCount}; expected 1 to {ChartFactors.LargestRangeSize}, or 0 for the moving range.");
        }

        return new CapabilityOptions
        {
            ConfidenceLevel = confidence,
            Model = options.Model switch
            {
                V1.CapabilityModel.Normal => CapabilityModel.Normal,
                V1.CapabilityModel.BoxCox => CapabilityModel.BoxCox,
                V1.CapabilityModel.Percentiles => CapabilityModel.Percentiles,
                _ => CapabilityModel.Automatic,
            },
            SubgroupSize = (int)Math.Clamp(options.SubgroupCount, 1, (uint)ChartFactors.LargestRangeSize),
            EvenIfUnstable = options.EvenIfUnstable,
        };
    }
}

using System.Globalization;

using ClearView.Contract.Validation;
using ClearView.Quality.Sampling;
using ClearView.V1;

namespace ClearView.Contract.Studies;

/// <summary>How many specimens to take, from request to answer.</summary>
/// <remarks>The one path that the server and the offline commands of the console share. Thread-safe, stateless.</remarks>
public static class SamplingStudy
{
    /// <summary>Answers a request.</summary>
    /// <param name="request">The request as it came.</param>
    /// <returns>The number with what it says, or every field at fault, also where no number up to a million is enough.</returns>
    public static StudyOutcome<PlanSamplingResponse> Plan(PlanSamplingRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        var violations = new Violations();
        PlanSamplingResponse? response = request.QuestionCase switch
        {
            PlanSamplingRequest.QuestionOneofCase.Mean => Plan(request.Mean, violations),
            PlanSamplingRequest.QuestionOneofCase.Difference => Plan(request.Difference, violations),
            PlanSamplingRequest.QuestionOneofCase.Equivalence => Plan(request.Equivalence, violations),
            PlanSamplingRequest.QuestionOneofCase.AcceptancePlan => AcceptancePlanner.Plan(request.AcceptancePlan, "acceptance_plan", violations),
            _ => null,
        };
        if (response is not null)
        {
            return StudyOutcome<PlanSamplingResponse>.Accepted(response);
        }

        if (violations.IsEmpty)
        {
            violations.Add("mean", $"was missing, and the other questions too; expected one of mean, difference, equivalence, acceptance_plan.");
        }

        return StudyOutcome<PlanSamplingResponse>.Refused(violations.ToImmutable());
    }

    private static PlanSamplingResponse? Plan(MeanSampleSize asked, Violations violations)
    {
        violations.RequirePositiveFigure("mean.standard_deviation", asked.StandardDeviation);
        violations.RequirePositiveFigure("mean.margin", asked.Margin);
        double confidence = violations.ReadLevel("mean.confidence_percent", asked.ConfidencePercent, PercentRules.DefaultConfidence);
        int? count = Count(violations, "mean.margin", asked.Margin, () => asked.KnownSpread
            ? SampleSize.ForMeanKnownSpread(asked.StandardDeviation, asked.Margin, confidence)
            : SampleSize.ForMean(asked.StandardDeviation, asked.Margin, confidence));
        return Answer(count, specimens => string.Create(
            CultureInfo.InvariantCulture,
            $"{Specimens(specimens)} {(specimens == 1 ? "gives" : "give")} a mean within ±{asked.Margin} at {Percent(confidence)} confidence, for a standard deviation of {asked.StandardDeviation} {(asked.KnownSpread ? "that is known" : "as expected; where that of the specimens turns out larger, the interval is wider")}."));
    }

    private static PlanSamplingResponse? Plan(DifferenceSampleSize asked, Violations violations)
    {
        violations.RequirePositiveFigure("difference.standard_deviation", asked.StandardDeviation);
        violations.RequirePositiveFigure("difference.difference", asked.Difference);
        double power = violations.ReadLevel("difference.power_percent", asked.PowerPercent, PercentRules.DefaultPower);
        double confidence = violations.ReadLevel("difference.confidence_percent", asked.ConfidencePercent, PercentRules.DefaultConfidence);
        int? count = Count(violations, "difference.difference", asked.Difference, () =>
            SampleSize.ToShowDifference(asked.StandardDeviation, asked.Difference, power, 1 - confidence));
        return Answer(count, specimens => string.Create(
            CultureInfo.InvariantCulture,
            $"{Specimens(specimens)} per lot show a true difference of {asked.Difference} with {Percent(power)} probability, by a t test at {Percent(confidence)} confidence, for a standard deviation of {asked.StandardDeviation} within each lot."));
    }

    private static PlanSamplingResponse? Plan(EquivalenceSampleSize asked, Violations violations)
    {
        violations.RequirePositiveFigure("equivalence.standard_deviation", asked.StandardDeviation);
        bool margin = violations.RequirePositiveFigure("equivalence.margin", asked.Margin);
        if (violations.RequireFigure("equivalence.difference", asked.Difference) && margin && Math.Abs(asked.Difference) >= asked.Margin)
        {
            violations.Add("equivalence.difference", $"was {asked.Difference}; expected smaller in size than the margin, {asked.Margin}.");
        }

        double power = violations.ReadLevel("equivalence.power_percent", asked.PowerPercent, PercentRules.DefaultPower);
        double confidence = violations.ReadLevel("equivalence.confidence_percent", asked.ConfidencePercent, PercentRules.DefaultConfidence);
        int? count = Count(violations, "equivalence.margin", asked.Margin, () =>
            SampleSize.ToShowEquivalence(asked.StandardDeviation, asked.Difference, asked.Margin, power, 1 - confidence));
        return Answer(count, specimens => string.Create(
            CultureInfo.InvariantCulture,
            $"{Specimens(specimens)} per lot show that two lots whose means lie {Math.Abs(asked.Difference)} apart are equivalent within {asked.Margin}, with at least {Percent(power)} probability, by two one-sided tests at {Percent(confidence)} confidence each, for a standard deviation of {asked.StandardDeviation} within each lot."));
    }

    // Every argument was checked; what is left out of range is a number of specimens past all planning.
    private static int? Count(Violations violations, string field, double value, Func<int> count)
    {
        if (!violations.IsEmpty)
        {
            return null;
        }

        try
        {
            return count();
        }
        catch (ArgumentOutOfRangeException)
        {
            violations.Add(field, $"was {value}; more than {SampleSize.Largest} specimens would be needed. Expected a wider one, or less confidence.");
            return null;
        }
    }

    private static PlanSamplingResponse? Answer(int? count, Func<int, string> conclusion) => count is { } specimens
        ? new PlanSamplingResponse { SpecimenCount = (uint)specimens, Conclusion = conclusion(specimens) }
        : null;

    private static string Specimens(int count) => string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? "specimen" : "specimens")}");

    private static string Percent(double fraction) => string.Create(CultureInfo.InvariantCulture, $"{100 * fraction:0.######} %");
}

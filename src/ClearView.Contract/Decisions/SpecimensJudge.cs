using ClearView.Contract.Studies;
using ClearView.V1;

namespace ClearView.Contract.Decisions;

/// <summary>Several specimens of one product: evaluated, averaged, judged.</summary>
/// <remarks>The one path that the server and the offline commands of the console share. Thread-safe, stateless.</remarks>
public static class SpecimensJudge
{
    /// <summary>Judges the mean of measurements, or a single one, under a specification.</summary>
    /// <param name="measurements">The measurements as they came, 1 to <see cref="SpecimensEvaluator.MostMeasurements"/>; another number is a violation.</param>
    /// <param name="specification">The specification.</param>
    /// <param name="clock">The clock that bounds the times of measurement.</param>
    /// <param name="cancellationToken">Stops the work between two measurements.</param>
    /// <returns>The answer, or every violation found, fields named as "measurements[2].conditions.aperture_mm".</returns>
    /// <exception cref="OperationCanceledException">The token was cancelled.</exception>
    public static StudyOutcome<JudgeSpecimensResponse> Judge(
        IReadOnlyList<Measurement> measurements, ResolvedSpecification specification, TimeProvider clock, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(measurements);
        ArgumentNullException.ThrowIfNull(specification);
        SpecimensOutcome outcome = SpecimensEvaluator.Evaluate(measurements, specification.MethodChoice, clock, omitSpectra: true, cancellationToken);
        if (!outcome.IsAccepted)
        {
            return StudyOutcome<JudgeSpecimensResponse>.Refused(outcome.Violations);
        }

        Verdict verdict = measurements.Count == 1
            ? ReadingJudge.Judge(specification, measurements[0], outcome.Response.Evaluations[0])
            : ReadingJudge.Judge(specification, measurements, outcome.Response.Means);
        return StudyOutcome<JudgeSpecimensResponse>.Accepted(new JudgeSpecimensResponse
        {
            Verdict = verdict,
            Evaluations = { outcome.Response.Evaluations },
            Means = { outcome.Response.Means },
            Specification = specification.Wire.Clone(),
        });
    }
}

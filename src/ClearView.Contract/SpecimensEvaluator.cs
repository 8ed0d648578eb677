using System.Collections.Immutable;

using ClearView.Contract.Mapping;
using ClearView.Contract.Validation;
using ClearView.V1;

using SpecimenMean = ClearView.Optics.Evaluations.SpecimenMean;

namespace ClearView.Contract;

/// <summary>Several specimens of one material, or places on one bottle: each evaluated by itself, then summarised.</summary>
/// <remarks>The one path that the server and the offline commands of the console share. Thread-safe, stateless.</remarks>
public static class SpecimensEvaluator
{
    /// <summary>Most measurements of one request.</summary>
    public const int MostMeasurements = 200;

    /// <summary>Validates, evaluates and summarises measurements under one method.</summary>
    /// <param name="measurements">The measurements as they came, 1 to <see cref="MostMeasurements"/>; another number is a violation.</param>
    /// <param name="method">The method, or why there is none; its violations come first.</param>
    /// <param name="clock">The clock that bounds the times of measurement.</param>
    /// <param name="omitSpectra">Whether to leave the reduced spectra out of the evaluations.</param>
    /// <param name="cancellationToken">Stops the work between two measurements.</param>
    /// <returns>The answer, or every violation found, fields named as "measurements[2].conditions.aperture_mm".</returns>
    /// <exception cref="OperationCanceledException">The token was cancelled.</exception>
    public static SpecimensOutcome Evaluate(
        IReadOnlyList<Measurement> measurements,
        MethodChoice method,
        TimeProvider clock,
        bool omitSpectra = false,
        CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(measurements);
        ArgumentNullException.ThrowIfNull(method);
        ArgumentNullException.ThrowIfNull(clock);
        var violations = new Violations();
        Optics.Evaluations.Method? domainMethod = method.Read(violations);
        if (measurements.Count is 0 or > MostMeasurements)
        {
            violations.Add("measurements", $"had {measurements.Count} measurements; expected 1 to {MostMeasurements}.");
            return SpecimensOutcome.Refused(violations.ToImmutable());
        }

        // A fault of the method that shows with every measurement is told once.
        var told = new HashSet<(string, string)>();
        var evaluated = new List<EvaluatedMeasurement>(measurements.Count);
        for (int i = 0; i < measurements.Count; i++)
        {
            cancellationToken.ThrowIfCancellationRequested();
            var own = new Violations();
            if (MeasurementEvaluator.Evaluate(measurements[i], MeasurementPath.At(i), method, domainMethod, clock, omitSpectra, sharesMethod: false, own) is { } one)
            {
                evaluated.Add(one);
            }

            if (own.IsEmpty)
            {
                continue;
            }

            foreach (FieldViolation violation in own.ToImmutable().Where(v => told.Add((v.Field, v.Description))))
            {
                violations.Add(violation.Field, $"{violation.Description}");
            }
        }

        return violations.IsEmpty
            ? SpecimensOutcome.Accepted(Summarise(measurements, evaluated, method.Method!))
            : SpecimensOutcome.Refused(violations.ToImmutable());
    }

    private static EvaluateSpecimensResponse Summarise(
        IReadOnlyList<Measurement> measurements, List<EvaluatedMeasurement> evaluated, Method method) => new()
        {
            Evaluations = { evaluated.Select(one => one.Wire) },
            Means = { Means([.. evaluated.Select(one => one.Evaluation)], method.Uncertainty).Select(SummaryWriter.Write) },
            WallSummaries = { SummaryWriter.WriteWalls(measurements, evaluated) },
        };

    private static ImmutableArray<SpecimenMean> Means(
        ImmutableArray<Optics.Evaluations.Evaluation> specimens, UncertaintyInputs? uncertainty)
    {
        // Evaluation has checked the inputs already, each against the grid of its own scans.
        return uncertainty is not null
            && specimens[0].Scans is { } scans
            && UncertaintyReader.Read(uncertainty, scans.Grid, "method.uncertainty", new Violations()) is { } inputs
            ? SpecimenMean.Of(specimens, inputs, uncertainty.CoveragePercent / 100)
            : SpecimenMean.Of(specimens);
    }
}

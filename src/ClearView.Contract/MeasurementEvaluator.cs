using ClearView.Contract.Mapping;
using ClearView.Contract.Validation;
using ClearView.Optics.Evaluations;
using ClearView.Optics.Transmission;
using ClearView.V1;

namespace ClearView.Contract;

/// <summary>From a measurement on the wire to its evaluation: validation, reduction, evaluation, and back to the wire.</summary>
/// <remarks>The one path that the server and the offline commands of the console share. Thread-safe, stateless.</remarks>
public static class MeasurementEvaluator
{
    /// <summary>Validates and evaluates one measurement under one method.</summary>
    /// <param name="measurement">The measurement as it came; <see langword="null"/> is a violation, not an exception.</param>
    /// <param name="method">The method as it came; <see langword="null"/> is a violation, not an exception.</param>
    /// <param name="clock">The clock that bounds the time of measurement.</param>
    /// <returns>The evaluation, or every violation found, fields named as "measurement.conditions.aperture_mm".</returns>
    public static EvaluationOutcome Evaluate(Measurement? measurement, V1.Method? method, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(clock);
        var violations = new Violations();
        Optics.Evaluations.Method? domainMethod = MethodReader.Read(method, "method", violations);
        Optics.Evaluations.Evaluation? evaluation = null;
        if (measurement is null)
        {
            violations.Add("measurement", $"was missing; expected a measurement.");
        }
        else
        {
            MeasurementRules.Check(measurement, "measurement", clock, violations);
            evaluation = EvaluateScans(measurement.Scans, "measurement.scans", domainMethod, violations);
        }

        return violations.IsEmpty && evaluation is not null
            ? EvaluationOutcome.Accepted(EvaluationWriter.Write(evaluation, measurement!, method!))
            : EvaluationOutcome.Refused(violations.ToImmutable());
    }

    private static Optics.Evaluations.Evaluation? EvaluateScans(
        Scans? scans, string path, Optics.Evaluations.Method? method, Violations violations)
    {
        switch (scans?.FormCase)
        {
            case Scans.FormOneofCase.Sphere:
                return EvaluateSpectra(ScansReader.ReadSphere(scans.Sphere, $"{path}.sphere", violations), method);
            case Scans.FormOneofCase.Normalised:
                return EvaluateSpectra(ScansReader.ReadNormalised(scans.Normalised, $"{path}.normalised", violations), method);
            case Scans.FormOneofCase.Hazemeter:
                Optics.Transmission.HazemeterReadings? readings = ScansReader.ReadHazemeter(scans.Hazemeter, $"{path}.hazemeter", violations);
                return readings is { } taken && method is not null ? Evaluator.Evaluate(taken, method) : null;
            default:
                violations.Add(path, $"was missing; expected sphere, normalised or hazemeter scans.");
                return null;
        }
    }

    private static Optics.Evaluations.Evaluation? EvaluateSpectra(TransmittanceScans? scans, Optics.Evaluations.Method? method) =>
        scans is null || method is null ? null : Evaluator.Evaluate(scans, method);
}

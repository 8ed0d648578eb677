using ClearView.Contract.Mapping;
using ClearView.Contract.Validation;
using ClearView.Optics.Evaluations;
using ClearView.Optics.Transmission;
using ClearView.Optics.Transmission.Thickness;
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
    public static EvaluationOutcome Evaluate(Measurement? measurement, V1.Method? method, TimeProvider clock) =>
        Evaluate(measurement, MethodChoice.Given(method), clock);

    /// <summary>Validates and evaluates one measurement under the method that a request chose.</summary>
    /// <param name="measurement">The measurement as it came; <see langword="null"/> is a violation, not an exception.</param>
    /// <param name="method">The method, or why there is none; its violations come first.</param>
    /// <param name="clock">The clock that bounds the time of measurement.</param>
    /// <param name="omitSpectra">Whether to leave the reduced spectra out of the evaluation.</param>
    /// <returns>The evaluation, or every violation found, fields named as "measurement.conditions.aperture_mm".</returns>
    public static EvaluationOutcome Evaluate(Measurement? measurement, MethodChoice method, TimeProvider clock, bool omitSpectra = false)
    {
        ArgumentNullException.ThrowIfNull(method);
        ArgumentNullException.ThrowIfNull(clock);
        var violations = new Violations();
        Optics.Evaluations.Method? domainMethod = method.Read(violations);
        return Evaluate(measurement, MeasurementPath.Single, method, domainMethod, clock, omitSpectra, sharesMethod: false, violations) is { } evaluated
            ? EvaluationOutcome.Accepted(evaluated.Wire)
            : EvaluationOutcome.Refused(violations.ToImmutable());
    }

    /// <summary>Validates and evaluates one measurement of a request.</summary>
    /// <remarks>
    /// Evaluations that share the method hold the message of the choice itself, which is then not to be changed through one of them.
    /// </remarks>
    /// <returns>The evaluation; <see langword="null"/> when anything was found at fault, in this measurement or before.</returns>
    internal static EvaluatedMeasurement? Evaluate(
        Measurement? measurement,
        MeasurementPath path,
        MethodChoice choice,
        Optics.Evaluations.Method? domainMethod,
        TimeProvider clock,
        bool omitSpectra,
        bool sharesMethod,
        Violations violations)
    {
        if (measurement is null)
        {
            violations.Add(path.Whole, $"was missing; expected a measurement.");
            return null;
        }

        V1.Method? method = choice.Method;
        MeasurementRules.Check(measurement, path, clock, violations);
        ThicknessScaling? thickness = MethodExtras.ReadThickness(
            method?.ReferenceThickness, measurement.Conditions, "method.reference_thickness", violations, path.Conditions);
        if (domainMethod is not null && thickness is not null)
        {
            domainMethod = domainMethod.WithThickness(thickness);
        }

        Optics.Evaluations.Evaluation? evaluation = EvaluateScans(measurement.Scans, path, domainMethod, violations);
        EvaluatedUncertainty? uncertainty = method?.Uncertainty is null || evaluation is null
            ? null
            : UncertaintyEvaluator.Evaluate(evaluation, method.Uncertainty, "method.uncertainty", violations);
        if (!violations.IsEmpty || evaluation is null || method is null)
        {
            return null;
        }

        V1.Evaluation wire = EvaluationWriter.Write(evaluation, uncertainty, measurement, sharesMethod ? method : method.Clone(), omitSpectra);
        wire.MethodName = choice.Name?.Clone();
        return new EvaluatedMeasurement(evaluation, wire);
    }

    private static Optics.Evaluations.Evaluation? EvaluateScans(
        Scans? scans, MeasurementPath path, Optics.Evaluations.Method? method, Violations violations)
    {
        switch (scans?.FormCase)
        {
            case Scans.FormOneofCase.Sphere:
                return EvaluateSpectra(ScansReader.ReadSphere(scans.Sphere, path.Sphere, violations), method);
            case Scans.FormOneofCase.Normalised:
                return EvaluateSpectra(ScansReader.ReadNormalised(scans.Normalised, path.Normalised, violations), method);
            case Scans.FormOneofCase.Hazemeter:
                Optics.Transmission.HazemeterReadings? readings = ScansReader.ReadHazemeter(scans.Hazemeter, path.Hazemeter, violations);
                return readings is { } taken && method is not null ? Evaluator.Evaluate(taken, method) : null;
            default:
                violations.Add(path.Scans, $"was missing; expected sphere, normalised or hazemeter scans.");
                return null;
        }
    }

    private static Optics.Evaluations.Evaluation? EvaluateSpectra(TransmittanceScans? scans, Optics.Evaluations.Method? method) =>
        scans is null || method is null ? null : Evaluator.Evaluate(scans, method);
}

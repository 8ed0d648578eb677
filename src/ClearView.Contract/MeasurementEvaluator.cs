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
    public static EvaluationOutcome Evaluate(Measurement? measurement, Method? method, TimeProvider clock) =>
        throw new NotImplementedException();
}

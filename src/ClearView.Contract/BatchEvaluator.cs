using ClearView.Contract.Validation;
using ClearView.V1;

namespace ClearView.Contract;

/// <summary>Measurements of a batch under one method: each evaluated by itself, and answered in its place.</summary>
/// <remarks>Thread-safe, stateless.</remarks>
public static class BatchEvaluator
{
    /// <summary>Most measurements of one batch.</summary>
    public const int MostMeasurements = SpecimensEvaluator.MostMeasurements;

    /// <summary>Validates and evaluates the measurements of a batch.</summary>
    /// <param name="request">The batch as it came, whose method the evaluations then share: change neither; its correlation identifier is returned as it is.</param>
    /// <param name="method">The method, or why there is none, which refuses the batch.</param>
    /// <param name="clock">The clock that bounds the times of measurement.</param>
    /// <param name="cancellationToken">Stops the work between two measurements.</param>
    /// <returns>
    /// An outcome per measurement, fields named as "measurements[2].conditions.aperture_mm"; or a refusal, where the method, the
    /// number of measurements, not 1 to <see cref="MostMeasurements"/>, or the correlation identifier is at fault.
    /// </returns>
    /// <exception cref="OperationCanceledException">The token was cancelled.</exception>
    public static EvaluateBatchesResponse Evaluate(
        EvaluateBatchesRequest request, MethodChoice method, TimeProvider clock, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(method);
        ArgumentNullException.ThrowIfNull(clock);
        var response = new EvaluateBatchesResponse { CorrelationId = request.CorrelationId };
        var atFault = new Violations();
        CorrelationRules.Check(request.CorrelationId, atFault);
        if (request.Measurements.Count is 0 or > MostMeasurements)
        {
            atFault.Add("measurements", $"had {request.Measurements.Count} measurements; expected 1 to {MostMeasurements}.");
        }

        Optics.Evaluations.Method? domainMethod = method.Read(atFault);
        if (!atFault.IsEmpty)
        {
            response.Refusal = new Refusal { FieldViolations = { atFault.ToImmutable() } };
            return response;
        }

        response.Outcomes.Capacity = request.Measurements.Count;
        for (int i = 0; i < request.Measurements.Count; i++)
        {
            cancellationToken.ThrowIfCancellationRequested();
            var own = new Violations();
            EvaluatedMeasurement? evaluated = MeasurementEvaluator.Evaluate(
                request.Measurements[i], MeasurementPath.At(i), method, domainMethod, clock, request.OmitSpectra, sharesMethod: true, own);
            response.Outcomes.Add(evaluated is null
                ? new SpecimenOutcome { Refusal = new Refusal { FieldViolations = { own.ToImmutable() } } }
                : new SpecimenOutcome { Evaluation = evaluated.Wire });
        }

        return response;
    }
}

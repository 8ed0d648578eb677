namespace ClearView.Contract;

/// <summary>A measurement evaluated: in the terms of the domain, and on the wire.</summary>
internal sealed record EvaluatedMeasurement(Optics.Evaluations.Evaluation Evaluation, V1.Evaluation Wire);

using ClearView.Contract;
using ClearView.V1;

namespace ClearView.Server.Services;

/// <summary>From a measurement on the wire, and the method that its request chose, to its evaluation or its violations.</summary>
internal delegate EvaluationOutcome EvaluateMeasurement(Measurement? measurement, MethodChoice method);

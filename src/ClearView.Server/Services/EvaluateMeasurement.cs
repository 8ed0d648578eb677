using ClearView.Contract;
using ClearView.V1;

namespace ClearView.Server.Services;

/// <summary>From a measurement on the wire to its evaluation or its violations.</summary>
internal delegate EvaluationOutcome EvaluateMeasurement(Measurement? measurement, Method? method);

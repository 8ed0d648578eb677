using ClearView.Contract;
using ClearView.V1;

namespace ClearView.Server.Services;

/// <summary>From a measurement on the wire, and the method that its request chose, to its evaluation or its violations.</summary>
/// <param name="measurement">The measurement.</param>
/// <param name="method">The method.</param>
/// <param name="omitSpectra">Whether to leave the reduced spectra out of the evaluation.</param>
internal delegate EvaluationOutcome EvaluateMeasurement(Measurement? measurement, MethodChoice method, bool omitSpectra);

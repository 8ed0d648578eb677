namespace ClearView.Plotting.Decisions;

/// <summary>Limits over a stretch of the horizontal axis of a control chart.</summary>
/// <param name="FromX">Where it begins.</param>
/// <param name="ToX">Where it ends.</param>
/// <param name="Phase">Place of its phase, from 0.</param>
/// <param name="Lower">Lower limit, in the measurand's unit; NaN for none.</param>
/// <param name="Centre">Centre line, in the measurand's unit; NaN for none.</param>
/// <param name="Upper">Upper limit, in the measurand's unit; NaN for none.</param>
internal readonly record struct LimitStep(double FromX, double ToX, int Phase, double Lower, double Centre, double Upper);

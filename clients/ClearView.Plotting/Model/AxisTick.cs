namespace ClearView.Plotting.Model;

/// <summary>One marked value of an axis.</summary>
/// <param name="Value">Where.</param>
/// <param name="Label">What is printed there.</param>
public sealed record AxisTick(double Value, string Label);

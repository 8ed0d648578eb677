namespace ClearView.Plotting.Model;

/// <summary>One point in the units of its panel's axes.</summary>
/// <param name="X">Horizontal value.</param>
/// <param name="Y">Vertical value; NaN for a gap.</param>
public readonly record struct ChartPoint(double X, double Y);

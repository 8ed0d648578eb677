namespace ClearView.Plotting.Model;

/// <summary>A stretch of the vertical axis at one horizontal value: one slice of a filled band.</summary>
/// <param name="X">Horizontal value.</param>
/// <param name="Low">Lower end; NaN for a gap.</param>
/// <param name="High">Upper end; NaN for a gap.</param>
public readonly record struct RangeModel(double X, double Low, double High);

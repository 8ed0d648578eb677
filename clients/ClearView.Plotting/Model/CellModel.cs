namespace ClearView.Plotting.Model;

/// <summary>A cell of a heat map.</summary>
/// <param name="Area">Where it lies, in the units of its panel's axes.</param>
/// <param name="ScaleFraction">Where its value lies on the colour scale: 0 at the lower end, 1 at the upper.</param>
public readonly record struct CellModel(BarModel Area, double ScaleFraction);

namespace ClearView.Plotting.Model;

/// <summary>A filled rectangle in the units of its panel's axes.</summary>
/// <param name="FromX">Left edge.</param>
/// <param name="ToX">Right edge.</param>
/// <param name="FromY">Lower edge.</param>
/// <param name="ToY">Upper edge.</param>
public readonly record struct BarModel(double FromX, double ToX, double FromY, double ToY);

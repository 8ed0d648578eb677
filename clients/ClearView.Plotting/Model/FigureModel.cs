namespace ClearView.Plotting.Model;

/// <summary>A line of the box of figures beside the panels.</summary>
/// <param name="Label">What it is.</param>
/// <param name="Value">The figure with its unit; empty for a heading.</param>
public sealed record FigureModel(string Label, string Value);

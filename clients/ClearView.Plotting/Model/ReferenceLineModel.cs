namespace ClearView.Plotting.Model;

/// <summary>A horizontal or vertical line across a panel.</summary>
/// <param name="Orientation">Which way it runs.</param>
/// <param name="Value">Where, in units of the axis that it stands on.</param>
/// <param name="Label">What it is, with its value; empty for none.</param>
/// <param name="Look">How it looks.</param>
public sealed record ReferenceLineModel(LineOrientation Orientation, double Value, string Label, SeriesLook Look);

namespace ClearView.Plotting.Model;

/// <summary>A thin line with end caps from a lower to an upper value.</summary>
/// <param name="Orientation">Which way it runs: vertical along the vertical axis, horizontal along the horizontal one.</param>
/// <param name="At">Where it stands, in units of the other axis.</param>
/// <param name="Low">Lower end, in units of the axis that it runs along.</param>
/// <param name="High">Upper end, in units of the axis that it runs along.</param>
public readonly record struct WhiskerModel(LineOrientation Orientation, double At, double Low, double High);

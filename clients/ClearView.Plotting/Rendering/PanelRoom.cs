namespace ClearView.Plotting.Rendering;

/// <summary>Room kept around a panel for its axes, points; null for what is needed.</summary>
/// <param name="Left">At the left.</param>
/// <param name="Right">At the right.</param>
/// <param name="Top">Above, without the heading.</param>
/// <param name="Bottom">Beneath.</param>
internal readonly record struct PanelRoom(float? Left, float? Right, float? Top, float? Bottom);

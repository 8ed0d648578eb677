using System.Collections.Immutable;

namespace ClearView.Plotting.Model;

/// <summary>One axis.</summary>
/// <param name="Label">What it measures, with its unit; empty where the panel beneath carries the label.</param>
/// <param name="Minimum">Value at its lower end.</param>
/// <param name="Maximum">Value at its upper end, above <paramref name="Minimum"/>.</param>
public sealed record AxisModel(string Label, double Minimum, double Maximum)
{
    /// <summary>Marked values; empty to let the drawing choose round ones.</summary>
    public ImmutableArray<AxisTick> Ticks { get; init; } = [];

    /// <summary>Whether the marked values are printed.</summary>
    public bool ShowTickLabels { get; init; } = true;
}

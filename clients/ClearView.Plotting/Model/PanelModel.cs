using System.Collections.Immutable;

namespace ClearView.Plotting.Model;

/// <summary>One pair of axes and all that stands in it.</summary>
public sealed record PanelModel
{
    /// <summary>The horizontal axis.</summary>
    public required AxisModel X { get; init; }

    /// <summary>The vertical axis.</summary>
    public required AxisModel Y { get; init; }

    /// <summary>The series, drawn in this order.</summary>
    public required ImmutableArray<SeriesModel> Series { get; init; }

    /// <summary>Words above the panel; may be empty.</summary>
    public string Heading { get; init; } = "";

    /// <summary>Stretches of the horizontal axis, named along the upper edge; neighbours are shaded in turn.</summary>
    public ImmutableArray<BandModel> Bands { get; init; } = [];

    /// <summary>Name of what the bands are, for example "roll"; may be empty.</summary>
    public string BandsLabel { get; init; } = "";

    /// <summary>Lines across the panel, named outside it so that they never cover data.</summary>
    public ImmutableArray<ReferenceLineModel> ReferenceLines { get; init; } = [];

    /// <summary>Words at values of the vertical axis, outside at the right; where they would touch they are moved apart.</summary>
    public ImmutableArray<AxisTick> RightNames { get; init; } = [];

    /// <summary>Words at values of the horizontal axis, above the panel, in as many rows as they need.</summary>
    public ImmutableArray<AxisTick> TopNames { get; init; } = [];

    /// <summary>Words at points of the panel.</summary>
    public ImmutableArray<AnnotationModel> Annotations { get; init; } = [];

    /// <summary>Whether one unit is equally long on both axes.</summary>
    public bool EqualScale { get; init; }

    /// <summary>Row of a grid, from 0 at the top.</summary>
    public int Row { get; init; }

    /// <summary>Column of a grid, from 0 at the left.</summary>
    public int Column { get; init; }

    /// <summary>Share of the chart's width or height, relative to the other panels.</summary>
    public double Weight { get; init; } = 1;
}

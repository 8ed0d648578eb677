using System.Collections.Immutable;

namespace ClearView.Plotting.Model;

/// <summary>Points that belong together.</summary>
public sealed record SeriesModel
{
    /// <summary>Name in the legend.</summary>
    public required string Label { get; init; }

    /// <summary>The points; one whose value is not a number interrupts the line.</summary>
    public required ImmutableArray<ChartPoint> Points { get; init; }

    /// <summary>A filled band; a slice whose ends are not numbers interrupts it.</summary>
    public ImmutableArray<RangeModel> Ribbon { get; init; } = [];

    /// <summary>Thin lines with end caps, for uncertainties and ranges.</summary>
    public ImmutableArray<WhiskerModel> Whiskers { get; init; } = [];

    /// <summary>Filled rectangles.</summary>
    public ImmutableArray<BarModel> Bars { get; init; } = [];

    /// <summary>Cells of a heat map.</summary>
    public ImmutableArray<CellModel> Cells { get; init; } = [];

    /// <summary>How it looks.</summary>
    public required SeriesLook Look { get; init; }

    /// <summary>Draws the mark on each n-th point only, so that a dense line stays a line.</summary>
    public int MarkEvery { get; init; } = 1;

    /// <summary>First point to be marked, so that the marks of parallel lines do not coincide.</summary>
    public int MarkOffset { get; init; }

    /// <summary>The only point to be marked; <see langword="null"/> to mark by <see cref="MarkEvery"/>.</summary>
    public int? MarkOnly { get; init; }

    /// <summary>How far above its point a mark is drawn, points, so that several marks of one point stand on one another.</summary>
    public double MarkRisePt { get; init; }

    /// <summary>Whether the legend names it.</summary>
    public bool InLegend { get; init; } = true;
}

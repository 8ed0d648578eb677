using System.Collections.Immutable;

namespace ClearView.Plotting.Model;

/// <summary>Everything that a chart shows, as plain data: what is drawn is decided here, how it is drawn is not.</summary>
public sealed record ChartModel
{
    /// <summary>What the chart is, one line.</summary>
    public required string Title { get; init; }

    /// <summary>Of what, one line; may be empty.</summary>
    public string Subtitle { get; init; } = "";

    /// <summary>The panels, in reading order.</summary>
    public required ImmutableArray<PanelModel> Panels { get; init; }

    /// <summary>Height, points; the width is always the same.</summary>
    public float HeightPt { get; init; } = 500;

    /// <summary>Whether the panels stand beside or beneath one another.</summary>
    public PanelArrangement Arrangement { get; init; } = PanelArrangement.Beneath;

    /// <summary>Widths of the columns of a grid, relative to one another.</summary>
    public ImmutableArray<double> ColumnWeights { get; init; } = [];

    /// <summary>Heights of the rows of a grid, relative to one another.</summary>
    public ImmutableArray<double> RowWeights { get; init; } = [];

    /// <summary>Figures in a box to the right of the panels; empty for no box.</summary>
    public ImmutableArray<FigureModel> Figures { get; init; } = [];

    /// <summary>What the reader has to be wary of; each is printed beneath the panels.</summary>
    public ImmutableArray<string> Notes { get; init; } = [];

    /// <summary>Method and source, printed at the foot.</summary>
    public required ImmutableArray<string> Footer { get; init; }

    /// <summary>Every series that the legend names, each once, in reading order.</summary>
    public IEnumerable<SeriesModel> LegendSeries =>
        Panels.SelectMany(panel => panel.Series).Where(series => series.InLegend).DistinctBy(series => series.Label);
}

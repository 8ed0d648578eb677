namespace ClearView.Quality.ControlCharts;

/// <summary>What became of a reading on a live chart.</summary>
public enum LivePlacement
{
    /// <summary>It is the newest.</summary>
    Newest = 1,

    /// <summary>It was put in its place among the newest readings, and the chart was fed again from there.</summary>
    Inserted = 2,

    /// <summary>It is older than what the chart keeps: nothing was changed, the chart has to be built again from all readings.</summary>
    NeedsRebuild = 3,
}

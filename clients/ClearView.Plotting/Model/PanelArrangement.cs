namespace ClearView.Plotting.Model;

/// <summary>How the panels of a chart stand to one another.</summary>
public enum PanelArrangement
{
    /// <summary>From top to bottom, sharing the horizontal axis.</summary>
    Beneath,

    /// <summary>From left to right.</summary>
    Beside,

    /// <summary>In the rows and columns that the chart weighs; panels of a row share its height, those of a column its width.</summary>
    Grid,
}

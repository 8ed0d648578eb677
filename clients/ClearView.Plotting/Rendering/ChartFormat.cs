namespace ClearView.Plotting.Rendering;

/// <summary>Formats of a chart's file.</summary>
public enum ChartFormat
{
    /// <summary>Pixels, 1600 × 1000.</summary>
    Png,

    /// <summary>Lines, marks and text.</summary>
    Svg,

    /// <summary>A page of lines, marks and text, with its font.</summary>
    Pdf,
}

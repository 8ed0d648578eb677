namespace ClearView.Plotting.Model;

/// <summary>Which way a line runs.</summary>
public enum LineOrientation
{
    /// <summary>At one vertical value.</summary>
    Horizontal,

    /// <summary>At one horizontal value.</summary>
    Vertical,
}

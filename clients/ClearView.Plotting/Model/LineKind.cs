namespace ClearView.Plotting.Model;

/// <summary>Patterns of a line.</summary>
public enum LineKind
{
    /// <summary>No line.</summary>
    None,

    /// <summary>Unbroken.</summary>
    Solid,

    /// <summary>Long dashes.</summary>
    Dashed,

    /// <summary>Dots.</summary>
    Dotted,

    /// <summary>Dash and dot in turn.</summary>
    DashDotted,
}

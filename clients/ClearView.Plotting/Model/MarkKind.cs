namespace ClearView.Plotting.Model;

/// <summary>Shapes of a mark.</summary>
public enum MarkKind
{
    /// <summary>No mark.</summary>
    None,

    /// <summary>Filled circle.</summary>
    FilledCircle,

    /// <summary>Open square.</summary>
    OpenSquare,

    /// <summary>Filled triangle, point up.</summary>
    FilledTriangle,

    /// <summary>Open diamond.</summary>
    OpenDiamond,

    /// <summary>Upright cross.</summary>
    Cross,

    /// <summary>Open circle.</summary>
    OpenCircle,

    /// <summary>Filled square.</summary>
    FilledSquare,

    /// <summary>Open triangle, point down.</summary>
    OpenTriangleDown,

    /// <summary>Filled diamond.</summary>
    FilledDiamond,

    /// <summary>Star of three strokes.</summary>
    Star,

    /// <summary>Open triangle, point up.</summary>
    OpenTriangle,

    /// <summary>Filled triangle, point down.</summary>
    FilledTriangleDown,

    /// <summary>Circle with an upright cross in it.</summary>
    CrossedCircle,

    /// <summary>Diagonal cross, kept for what fails.</summary>
    DiagonalCross,
}

namespace ClearView.Plotting.Model;

/// <summary>How a series looks. Line and mark alone must tell it from its neighbours: print is often grey.</summary>
/// <param name="Line">Pattern of the line.</param>
/// <param name="Mark">Shape of the marks.</param>
/// <param name="Ink">Colour, never the only difference.</param>
public sealed record SeriesLook(LineKind Line, MarkKind Mark, Ink Ink)
{
    /// <summary>How the areas of the series are filled.</summary>
    public FillKind Fill { get; init; } = FillKind.None;

    /// <summary>Width of the line, points.</summary>
    public double LineWidth { get; init; } = 1.6;

    /// <summary>Size of the marks, points.</summary>
    public double MarkSize { get; init; } = 7;
}

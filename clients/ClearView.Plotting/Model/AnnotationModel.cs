namespace ClearView.Plotting.Model;

/// <summary>Words at a point of a panel.</summary>
/// <param name="X">Horizontal value of the point.</param>
/// <param name="Y">Vertical value of the point.</param>
/// <param name="Text">The words.</param>
/// <param name="Anchor">On which side of the point they stand.</param>
public sealed record AnnotationModel(double X, double Y, string Text, AnnotationAnchor Anchor)
{
    /// <summary>Whether the words are set bold.</summary>
    public bool Bold { get; init; }

    /// <summary>Whether the words may move to a free place near the point, and are left out where there is none.</summary>
    public bool Loose { get; init; }

    /// <summary>Whether the panel shows through behind the words.</summary>
    public bool Transparent { get; init; }
}

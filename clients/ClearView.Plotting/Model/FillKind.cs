namespace ClearView.Plotting.Model;

/// <summary>How an area is filled. Fills differ in pattern, so that they can be told apart in black and white.</summary>
public enum FillKind
{
    /// <summary>Not at all.</summary>
    None,

    /// <summary>A light tint within thin edge lines.</summary>
    Light,

    /// <summary>The full colour.</summary>
    Solid,

    /// <summary>Slanting strokes within an outline.</summary>
    Hatched,

    /// <summary>Dots on white within an outline.</summary>
    Dotted,
}

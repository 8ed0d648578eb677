namespace ClearView.Plotting.Model;

/// <summary>On which side of its point an annotation stands.</summary>
public enum AnnotationAnchor
{
    /// <summary>Above it.</summary>
    Above,

    /// <summary>Beneath it.</summary>
    Beneath,

    /// <summary>To its left.</summary>
    Left,

    /// <summary>To its right.</summary>
    Right,

    /// <summary>On it.</summary>
    Centre,
}

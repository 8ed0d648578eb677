namespace ClearView.Plotting.Model;

/// <summary>The few colours of a chart, by name.</summary>
public enum Ink
{
    /// <summary>Black.</summary>
    Black,

    /// <summary>Dark blue.</summary>
    Blue,

    /// <summary>Red towards orange.</summary>
    Vermilion,

    /// <summary>Bluish green.</summary>
    Green,

    /// <summary>Purple.</summary>
    Purple,

    /// <summary>Ochre.</summary>
    Ochre,

    /// <summary>Grey, for what is in the background.</summary>
    Grey,
}

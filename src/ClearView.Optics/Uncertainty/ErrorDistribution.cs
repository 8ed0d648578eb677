namespace ClearView.Optics.Uncertainty;

/// <summary>Distribution that a source's error is drawn from in the Monte Carlo method (JCGM 101, clause 6.4).</summary>
public enum ErrorDistribution
{
    /// <summary>Normal; with finite degrees of freedom the scaled and shifted t distribution (JCGM 101, 6.4.9).</summary>
    Normal = 1,

    /// <summary>Rectangular, of half-width √3 times the standard uncertainty.</summary>
    Rectangular = 2,
}

namespace ClearView.Optics.Transmission;

/// <summary>What kind of scans an instrument gives.</summary>
public enum ScanKind
{
    /// <summary>Spectra, from a spectrophotometer.</summary>
    Spectral = 1,

    /// <summary>Single luminous readings, from a hazemeter.</summary>
    Hazemeter = 2,
}

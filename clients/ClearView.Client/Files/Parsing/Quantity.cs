namespace ClearView.Client.Files.Parsing;

/// <summary>What a column holds.</summary>
internal enum Quantity
{
    /// <summary>Wavelength.</summary>
    Wavelength,

    /// <summary>Total transmittance.</summary>
    Total,

    /// <summary>Diffuse transmittance.</summary>
    Diffuse,

    /// <summary>T1: incident light.</summary>
    T1,

    /// <summary>T2: light that the specimen transmits.</summary>
    T2,

    /// <summary>T3: light that the instrument scatters.</summary>
    T3,

    /// <summary>T4: light that instrument and specimen scatter.</summary>
    T4,
}

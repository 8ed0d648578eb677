namespace ClearView.Optics.Uncertainty;

/// <summary>How the errors of a source at different wavelengths belong together. It decides the answer.</summary>
public enum SourceCorrelation
{
    /// <summary>Independent at each wavelength, and between total and diffuse: averages out in weighted sums.</summary>
    PerWavelength = 1,

    /// <summary>One error moves the whole of both spectra together: does not average out, and partly cancels in haze.</summary>
    WholeSpectrum = 2,
}

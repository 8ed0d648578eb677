using ClearView.Optics.Colorimetry;

namespace ClearView.Optics.Evaluations;

/// <summary>The colour of the transmitted light, in every form.</summary>
/// <param name="Tristimulus">Tristimulus values; Y = 100 for the perfect transmitter.</param>
/// <param name="White">The white point.</param>
/// <param name="Lab">CIELAB.</param>
/// <param name="DominantWavelength">Dominant or complementary wavelength; <see langword="null"/> where the colour is achromatic.</param>
public sealed record TransmittedColour(
    Tristimulus Tristimulus,
    Tristimulus White,
    CieLab Lab,
    DominantWavelength? DominantWavelength);

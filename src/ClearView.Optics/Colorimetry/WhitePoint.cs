using ClearView.Optics.Spectra;

namespace ClearView.Optics.Colorimetry;

/// <summary>Tristimulus values of the perfect transmitter, from the same 1 nm products as the specimen's (ASTM E308).</summary>
/// <remarks>There is no printed white point in this library, so that specimen and white can never disagree.</remarks>
public static class WhitePoint
{
    /// <summary>The white point of an illuminant and observer; Y = 100.</summary>
    /// <param name="light">The illuminant and observer.</param>
    public static Tristimulus Of(LightAndObserver light)
    {
        ArgumentNullException.ThrowIfNull(light);
        double scale = Scale(light);
        return new Tristimulus(scale * Sum(light, light.Observer.XBar), 100, scale * Sum(light, light.Observer.ZBar));
    }

    /// <summary>k = 100 / Σ S·ȳ over 360-780 nm at 1 nm (CIE 15).</summary>
    internal static double Scale(LightAndObserver light) => 100 / Sum(light, light.Observer.YBar);

    private static double Sum(LightAndObserver light, Spectrum matchingFunction)
    {
        Spectrum power = light.Illuminant.RelativePower;
        double sum = 0;
        for (int i = 0; i < power.Grid.Count; i++)
        {
            sum += power[i] * matchingFunction[i];
        }

        return sum;
    }
}

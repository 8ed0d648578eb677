using ClearView.Optics.Colorimetry;
using ClearView.V1;

using LightAndObserver = ClearView.Optics.Colorimetry.LightAndObserver;
using Observer = ClearView.Optics.Colorimetry.Observer;

namespace ClearView.Plotting.Charts;

/// <summary>From the light that a value names to the one that the optics know.</summary>
internal static class ColourLight
{
    /// <exception cref="ChartRefusedException">The optics do not know the illuminant or the observer.</exception>
    public static LightAndObserver Of(MeasuredValue value)
    {
        Observer? observer = value.LightAndObserver?.Observer switch
        {
            V1.Observer.Cie19312Deg => Observer.Cie1931Degree2,
            V1.Observer.Cie196410Deg => Observer.Cie1964Degree10,
            _ => null,
        };
        return observer is not null && Illuminant.TryFind(value.LightAndObserver?.Illuminant, out Illuminant? illuminant)
            ? new LightAndObserver(illuminant, observer)
            : throw new ChartRefusedException($"There is no spectral locus for {Wording.Pair(value.LightAndObserver)}.");
    }
}

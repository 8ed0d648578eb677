using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Optics.Transmission.Bands;
using ClearView.Optics.Transmission.Thickness;
using ClearView.V1;

using LightAndObserver = ClearView.Optics.Colorimetry.LightAndObserver;

namespace ClearView.Contract.Methods;

/// <summary>Everything that is built in and that a request may name; the same for the server and for offline commands.</summary>
public static class Catalogue
{
    // The sodium D line, which handbooks give refractive indices at.
    private const double SodiumLineNm = 589.3;

    /// <summary>Writes the catalogue, a new message each time.</summary>
    public static GetCatalogueResponse Build() => new()
    {
        CieDataVersion = CieTables.VersionId,
        Illuminants = { Illuminant.All.Select(Write) },
        Bands = { Band.All.Select(Write) },
        Resins = { Resin.All.Select(Write) },
        Measurands = { Measurand.All.Select(Write) },
    };

    private static IlluminantInfo Write(Illuminant illuminant) => new()
    {
        Name = illuminant.Name,
        Description = illuminant.Description,
        WhitePoints =
        {
            Write(V1.Observer.Cie19312Deg, WhitePoint.Of(new LightAndObserver(illuminant, Optics.Colorimetry.Observer.Cie1931Degree2))),
            Write(V1.Observer.Cie196410Deg, WhitePoint.Of(new LightAndObserver(illuminant, Optics.Colorimetry.Observer.Cie1964Degree10))),
        },
    };

    private static WhitePointInfo Write(V1.Observer observer, Tristimulus white) => new()
    {
        Observer = observer,
        TristimulusX = white.X,
        TristimulusY = white.Y,
        TristimulusZ = white.Z,
    };

    private static BandInfo Write(Band band) => new()
    {
        Band = band.Id,
        Name = band.Name,
        FromNm = band.Range.FromNm,
        ToNm = band.Range.ToNm,
    };

    private static ResinInfo Write(Resin resin) => new()
    {
        Resin = resin.Id,
        Name = resin.Name,
        Source = resin.Index.Description,
        RefractiveIndex = resin.Index.At(SodiumLineNm),
    };

    private static MeasurandInfo Write(Measurand measurand) => new()
    {
        Measurand = measurand.Id,
        Name = measurand.Name,
        Symbol = measurand.Symbol,
        Unit = measurand.Unit,
        Needs = measurand.Needs,
    };
}

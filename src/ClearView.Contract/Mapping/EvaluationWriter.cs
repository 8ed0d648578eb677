using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Optics.Transmission;

namespace ClearView.Contract.Mapping;

/// <summary>Writes an evaluation to the wire.</summary>
internal static class EvaluationWriter
{
    // A percentage below this throughout is more likely a fraction than a film.
    private const double SuspectPercent = 1.5;

    public static V1.Evaluation Write(Evaluation evaluation, V1.Measurement measurement, V1.Method method)
    {
        var wire = new V1.Evaluation
        {
            Method = method.Clone(),
            CieDataVersion = CieTables.VersionId,
            Values = { evaluation.Values.Select(Write) },
            Caveats = { evaluation.Caveats.Select(Write) },
        };
        if (evaluation.Scans is { } scans)
        {
            wire.Spectra = Write(scans, measurement.Scans);
            AddUnitCaveat(wire, measurement.Scans.Normalised, scans);
        }

        return wire;
    }

    private static V1.MeasuredValue Write(MeasuredValue value)
    {
        var wire = new V1.MeasuredValue
        {
            Measurand = value.Measurand.Id,
            Name = value.Measurand.Name,
            Symbol = value.Measurand.Symbol,
            Value = value.Value,
            Unit = value.Measurand.Unit,
            Standard = value.Basis.Standard,
            Weighting = value.Basis.Weighting,
            LightAndObserver = new V1.LightAndObserver
            {
                Illuminant = value.Basis.LightAndObserver.Illuminant.Name,
                Observer = value.Basis.LightAndObserver.Observer == Observer.Cie1931Degree2
                    ? V1.Observer.Cie19312Deg
                    : V1.Observer.Cie196410Deg,
            },
        };
        if (value.Basis.IntervalNm is { } interval)
        {
            wire.IntervalNm = interval;
        }

        return wire;
    }

    private static V1.Caveat Write(Caveat caveat)
    {
        var wire = new V1.Caveat
        {
            Code = (V1.CaveatCode)caveat.Code,
            Message = caveat.Message,
            Measurands = { caveat.Measurands.Select(measurand => measurand.Id) },
        };
        if (caveat.Range is { } range)
        {
            wire.FromNm = range.FromNm;
            wire.ToNm = range.ToNm;
        }

        return wire;
    }

    private static V1.TransmittanceSpectra Write(TransmittanceScans scans, V1.Scans wire)
    {
        var spectra = new V1.TransmittanceSpectra
        {
            Grid = (wire.Sphere?.Grid ?? wire.Normalised.Grid).Clone(),
            TotalFraction = { scans.Total.Fractions.ToArray() },
            RegularFraction = { scans.RegularFractions() },
            HazePercent = { scans.SpectralHazePercents() },
        };
        if (scans.Diffuse is { } diffuse)
        {
            spectra.DiffuseFraction.AddRange(diffuse.Fractions.ToArray());
        }

        return spectra;
    }

    private static void AddUnitCaveat(V1.Evaluation wire, V1.NormalisedScans? sent, TransmittanceScans scans)
    {
        double highestPercent = 100 * scans.Total.Fractions.ToArray().Max();
        if (sent is { TransmittanceUnit: V1.TransmittanceUnit.Percent } && highestPercent < SuspectPercent)
        {
            wire.Caveats.Add(new V1.Caveat
            {
                Code = V1.CaveatCode.UnitSuspect,
                Message = FormattableString.Invariant(
                    $"Total transmittance is at most {highestPercent:0.###} %: were fractions sent as percent?"),
            });
        }
    }
}

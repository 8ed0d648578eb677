using System.Collections.Immutable;

using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Optics.Transmission;
using ClearView.Optics.Uncertainty;

using Google.Protobuf.Collections;

namespace ClearView.Contract.Mapping;

/// <summary>Writes an evaluation to the wire.</summary>
internal static class EvaluationWriter
{
    // A percentage below this throughout is more likely a fraction than a film.
    private const double SuspectPercent = 1.5;

    public static V1.Evaluation Write(
        Evaluation evaluation, EvaluatedUncertainty? uncertainty, V1.Measurement measurement, V1.Method method, bool omitSpectra)
    {
        var wire = new V1.Evaluation
        {
            Method = method,
            CieDataVersion = CieTables.VersionId,
            LightBarrier = FindingsWriter.LightBarrier(evaluation.LightBarrier),
            ScreenColour = FindingsWriter.ScreenColour(evaluation.Colour),
            Scattering = FindingsWriter.Scattering(evaluation.Scattering),
            AtReferenceThickness = WriteScaled(evaluation.AtReferenceThickness, uncertainty),
        };
        Write(evaluation.Values, uncertainty?.Measured, wire.Values);
        foreach (Caveat caveat in evaluation.Caveats)
        {
            wire.Caveats.Add(Write(caveat));
        }

        FindingsWriter.AddConformity(evaluation, measurement.Conditions, wire.Conformity);
        FindingsWriter.AddDifferenceWords(evaluation, wire.DifferenceWords);
        if (uncertainty is { Measured.NotConfirmed: { IsEmpty: false } notConfirmed })
        {
            wire.Caveats.Add(new V1.Caveat
            {
                Code = V1.CaveatCode.LinearUncertaintyNotValidated,
                Message = "Monte Carlo does not confirm the linear uncertainty (JCGM 101, clause 8): use the Monte Carlo interval.",
                Measurands = { notConfirmed.Select(measurand => measurand.Id) },
            });
        }

        if (evaluation.Scans is { } scans)
        {
            wire.Spectra = omitSpectra ? null : Write(scans, measurement.Scans, uncertainty?.Measured.Spectra);
            AddUnitCaveat(wire, measurement.Scans.Normalised, scans);
        }

        return wire;
    }

    private static V1.ValuesAtThickness? WriteScaled(ScaledEvaluation? scaled, EvaluatedUncertainty? uncertainty)
    {
        if (scaled is null)
        {
            return null;
        }

        var wire = new V1.ValuesAtThickness
        {
            ThicknessUm = scaled.Scaling.ReferenceThicknessUm,
            RefractiveIndexSource = scaled.Scaling.Index.Description,
        };
        Write(scaled.Evaluation.Values, uncertainty?.AtReferenceThickness, wire.Values);
        if (scaled.BulkHaze is { } haze)
        {
            wire.BulkHazePercent = haze.Percent;
            wire.BulkHazeUncertainty = uncertainty?.Measured.Linear(Measurands.Haze) is { } measured && scaled.BulkHazeUncertainty(measured) is { } own
                ? UncertaintyWriter.Write(own)
                : null;
        }

        return wire;
    }

    private static void Write(ImmutableArray<MeasuredValue> values, UncertaintyReport? uncertainty, RepeatedField<V1.MeasuredValue> wire)
    {
        wire.Capacity = values.Length;
        foreach (MeasuredValue value in values)
        {
            wire.Add(Write(value, uncertainty));
        }
    }

    private static V1.MeasuredValue Write(MeasuredValue value, UncertaintyReport? uncertainty)
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
        };
        if (value.Basis.LightAndObserver is { } light)
        {
            wire.LightAndObserver = new V1.LightAndObserver
            {
                Illuminant = light.Illuminant.Name,
                Observer = light.Observer == Observer.Cie1931Degree2 ? V1.Observer.Cie19312Deg : V1.Observer.Cie196410Deg,
            };
        }

        wire.Uncertainty = uncertainty is null ? null : UncertaintyWriter.Write(value.Measurand, uncertainty);
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
        };
        foreach (Measurand measurand in caveat.Measurands)
        {
            wire.Measurands.Add(measurand.Id);
        }

        if (caveat.Range is { } range)
        {
            wire.FromNm = range.FromNm;
            wire.ToNm = range.ToNm;
        }

        return wire;
    }

    private static V1.TransmittanceSpectra Write(TransmittanceScans scans, V1.Scans wire, SpectralUncertainty? uncertainty)
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

        if (uncertainty is not null)
        {
            spectra.TotalStandardUncertaintyFraction.AddRange(uncertainty.TotalFraction);
            spectra.DiffuseStandardUncertaintyFraction.AddRange(uncertainty.DiffuseFraction);
            spectra.HazeStandardUncertaintyPercent.AddRange(uncertainty.HazePercent);
        }

        return spectra;
    }

    private static void AddUnitCaveat(V1.Evaluation wire, V1.NormalisedScans? sent, TransmittanceScans scans)
    {
        if (sent is not { TransmittanceUnit: V1.TransmittanceUnit.Percent })
        {
            return;
        }

        double highestPercent = 100 * scans.Total.Fractions.ToArray().Max();
        if (highestPercent < SuspectPercent)
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

using System.Collections.Immutable;

using ClearView.Contract.Validation;
using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission.Bands;
using ClearView.Optics.Transmission.Thickness;

using Google.Protobuf.Collections;

namespace ClearView.Contract.Mapping;

/// <summary>Reads the optional choices of a method from the wire.</summary>
internal static class MethodExtras
{
    private const int MostBands = 20;

    /// <summary>Adds the optional choices; thickness is added with the measurement, since it needs the measured one.</summary>
    public static Method? Read(Method basis, V1.Method wire, string path, Violations violations)
    {
        CieLab? reference = DifferenceReader.ReadColour(wire.ReferenceColour, $"{path}.reference_colour", violations);
        if (wire.HasInitialYellownessIndex)
        {
            violations.RequireWithin($"{path}.initial_yellowness_index", wire.InitialYellownessIndex, -1000, 1000, "");
            if (basis.E313 is null && basis.Iso17223 is null)
            {
                violations.Add(
                    $"{path}.initial_yellowness_index",
                    $"was {wire.InitialYellownessIndex}; expected ASTM E313 or ISO 17223 among the yellowness indices, since the change is taken in them.");
            }
        }

        DifferenceFactors factors = DifferenceReader.ReadFactors(wire.DifferenceFactors, $"{path}.difference_factors", violations);
        MetamerismTest? metamerism = DifferenceReader.ReadMetamerism(wire, basis.Colour, path, violations);
        ImmutableArray<Band> bands = ReadBands(wire.Bands, $"{path}.bands", violations);
        if (wire.HasLightBarrierLimitPercent)
        {
            violations.RequirePositive($"{path}.light_barrier_limit_percent", wire.LightBarrierLimitPercent, 100, "%");
        }

        return violations.IsEmpty
            ? new Method(basis.HazeStandard, basis.Luminous, basis.Colour, basis.Yellowness)
            {
                ReferenceColour = reference,
                DifferenceFactors = factors,
                Metamerism = metamerism,
                InitialYellownessIndex = wire.HasInitialYellownessIndex ? wire.InitialYellownessIndex : null,
                Bands = bands,
                LightBarrierLimitFraction = wire.HasLightBarrierLimitPercent ? wire.LightBarrierLimitPercent / 100 : null,
            }
            : null;
    }

    /// <summary>The thickness scaling of a measurement; <see langword="null"/> where none is asked for or something is at fault.</summary>
    public static ThicknessScaling? ReadThickness(
        V1.ReferenceThickness? wire, V1.Conditions? conditions, string path, Violations violations, string conditionsPath = "measurement.conditions")
    {
        if (wire is null)
        {
            return null;
        }

        violations.RequirePositive($"{path}.thickness_um", wire.ThicknessUm, 100_000, "µm");
        if (conditions is { HasThicknessUm: false })
        {
            violations.Add($"{conditionsPath}.thickness_um", $"was missing; expected the measured thickness, since the method scales to {wire.ThicknessUm} µm.");
        }

        IRefractiveIndex? index = ReadIndex(wire, path, violations);
        return violations.IsEmpty && index is not null && conditions is not null
            ? new ThicknessScaling(index, conditions.ThicknessUm, wire.ThicknessUm)
            : null;
    }

    private static IRefractiveIndex? ReadIndex(V1.ReferenceThickness wire, string path, Violations violations)
    {
        switch (wire.IndexCase)
        {
            case V1.ReferenceThickness.IndexOneofCase.Resin when Resin.TryFind(wire.Resin, out Resin? resin):
                return resin.Index;
            case V1.ReferenceThickness.IndexOneofCase.Resin:
                violations.Add($"{path}.resin", $"was \"{wire.Resin}\"; expected one of {string.Join(", ", Resin.All.Select(known => known.Id))}.");
                return null;
            case V1.ReferenceThickness.IndexOneofCase.RefractiveIndex when wire.RefractiveIndex is > 1 and <= 3:
                return new ConstantIndex(wire.RefractiveIndex, FormattableString.Invariant($"refractive index {wire.RefractiveIndex}, given with the method"));
            case V1.ReferenceThickness.IndexOneofCase.RefractiveIndex:
                violations.Add($"{path}.refractive_index", $"was {wire.RefractiveIndex}; expected above 1 and at most 3.");
                return null;
            case V1.ReferenceThickness.IndexOneofCase.Table:
                return ReadIndexTable(wire.Table, $"{path}.table", violations);
            default:
                violations.Add(path, $"had no refractive index; expected resin, refractive_index or table.");
                return null;
        }
    }

    private static TabulatedIndex? ReadIndexTable(V1.RefractiveIndexTable table, string path, Violations violations)
    {
        if (TableReader.Read(table.WavelengthNm, table.RefractiveIndex, path, "refractive_index", violations) is not { } spectrum)
        {
            return null;
        }

        for (int i = 0; i < spectrum.Grid.Count; i++)
        {
            if (!(spectrum[i] is > 1 and <= 3))
            {
                violations.Add($"{path}.refractive_index[{i}]", $"was {spectrum[i]}; expected above 1 and at most 3.");
                return null;
            }
        }

        return new TabulatedIndex(spectrum, "refractive index table, given with the method");
    }

    private static ImmutableArray<Band> ReadBands(RepeatedField<V1.WavelengthBand> wire, string path, Violations violations)
    {
        if (wire.Count > MostBands)
        {
            violations.Add(path, $"had {wire.Count} bands; expected at most {MostBands}.");
            return [];
        }

        var bands = ImmutableArray.CreateBuilder<Band>();
        for (int i = 0; i < wire.Count; i++)
        {
            V1.WavelengthBand band = wire[i];
            if (band.FromNm >= WavelengthGrid.MinimumNm && band.ToNm > band.FromNm && band.ToNm <= WavelengthGrid.MaximumNm)
            {
                bands.Add(Band.Between(band.FromNm, band.ToNm));
            }
            else
            {
                violations.Add($"{path}[{i}]", $"was {band.FromNm} to {band.ToNm} nm; expected two ascending wavelengths within 200-1100 nm.");
            }
        }

        return bands.ToImmutable();
    }
}

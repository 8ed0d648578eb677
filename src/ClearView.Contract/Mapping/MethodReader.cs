using System.Collections.Immutable;

using ClearView.Contract.Validation;
using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Optics.Transmission;

using Google.Protobuf.Collections;

namespace ClearView.Contract.Mapping;

/// <summary>Reads a method from the wire.</summary>
public static class MethodReader
{
    /// <summary>Reads and checks a method.</summary>
    /// <param name="method">The method as it came.</param>
    /// <param name="path">Path of the field, for violations.</param>
    /// <param name="violations">Takes what is at fault.</param>
    /// <returns>The method, or <see langword="null"/> when something is at fault.</returns>
    public static Method? Read(V1.Method? method, string path, Violations violations)
    {
        ArgumentNullException.ThrowIfNull(violations);
        if (method is null)
        {
            violations.Add(path, $"was missing; expected a method.");
            return null;
        }

        HazeStandard? standard = ReadStandard(method.HazeStandard, $"{path}.haze_standard", violations);
        LightAndObserver? luminous = ReadLight(method.Luminous, $"{path}.luminous", violations);
        LightAndObserver? colour = ReadLight(method.Colour, $"{path}.colour", violations);
        ImmutableArray<YellownessKind>? yellowness = ReadYellowness(method.YellownessIndices, $"{path}.yellowness_indices", violations);
        if (standard is null || luminous is null || colour is null || yellowness is not { } kinds)
        {
            return null;
        }

        if (kinds.Contains(YellownessKind.AstmE313) && !E313Coefficients.TryFind(colour, out _))
        {
            violations.Add(
                $"{path}.yellowness_indices",
                $"asked for ASTM E313 under {colour}; expected a colour pair that it prints coefficients for: {string.Join(", ", E313Coefficients.All.Select(c => c.LightAndObserver))}.");
            return null;
        }

        if (kinds.Contains(YellownessKind.Iso17223) && !Iso17223.TryFind(colour, out _))
        {
            violations.Add(
                $"{path}.yellowness_indices",
                $"asked for ISO 17223 under {colour}; expected a colour pair that it knows: {string.Join(", ", Iso17223.All.Select(c => c.LightAndObserver))}.");
            return null;
        }

        return MethodExtras.Read(new Method(standard, luminous, colour, kinds), method, path, violations);
    }

    private static HazeStandard? ReadStandard(V1.HazeStandard standard, string path, Violations violations) =>
        violations.RequireNamed(path, standard)
            ? standard switch
            {
                V1.HazeStandard.AstmD1003ProcedureA => HazeStandard.AstmD1003ProcedureA,
                V1.HazeStandard.AstmD1003ProcedureB => HazeStandard.AstmD1003ProcedureB,
                V1.HazeStandard.Iso14782Iso134681 => HazeStandard.Iso14782WithIso13468Part1,
                V1.HazeStandard.Iso14782Iso134682 => HazeStandard.Iso14782WithIso13468Part2,
                _ => throw new InvalidOperationException($"No domain standard for {standard}."),
            }
            : null;

    /// <summary>An illuminant with an observer; <see langword="null"/> when something is at fault.</summary>
    internal static LightAndObserver? ReadLight(V1.LightAndObserver? light, string path, Violations violations)
    {
        if (light is null)
        {
            violations.Add(path, $"was missing; expected an illuminant and an observer.");
            return null;
        }

        Illuminant? illuminant = IlluminantReader.Read(light, path, violations);

        if (!violations.RequireNamed($"{path}.observer", light.Observer) || illuminant is null)
        {
            return null;
        }

        return new LightAndObserver(
            illuminant,
            light.Observer == V1.Observer.Cie19312Deg ? Observer.Cie1931Degree2 : Observer.Cie1964Degree10);
    }

    private static ImmutableArray<YellownessKind>? ReadYellowness(
        RepeatedField<V1.YellownessIndex> indices, string path, Violations violations)
    {
        bool valid = true;
        for (int i = 0; i < indices.Count; i++)
        {
            valid &= violations.RequireNamed($"{path}[{i}]", indices[i]);
        }

        if (indices.Distinct().Count() != indices.Count)
        {
            violations.Add(path, $"named an index twice; expected each at most once.");
            valid = false;
        }

        return valid
            ? [.. indices.Select(KindOf)]
            : null;
    }

    private static YellownessKind KindOf(V1.YellownessIndex index) => index switch
    {
        V1.YellownessIndex.AstmE313 => YellownessKind.AstmE313,
        V1.YellownessIndex.AstmD1925 => YellownessKind.AstmD1925,
        V1.YellownessIndex.Iso17223 => YellownessKind.Iso17223,
        _ => throw new InvalidOperationException($"No domain index for {index}."),
    };
}

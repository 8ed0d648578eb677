using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

using ClearView.Optics.Colorimetry;
using ClearView.Optics.Spectra;
using ClearView.Optics.Uncertainty;

namespace ClearView.Optics.Evaluations;

/// <summary>Evaluates readings on one grid under one method: prepared once, then a pass of dot products per reading, without allocation.</summary>
/// <remarks>
/// Luminous values are spectral-first: each spectrum is reduced wavelength by wavelength, then weighted (ASTM D1003
/// procedure B). Immutable, thread-safe.
/// </remarks>
public sealed class ReadingEvaluator
{
    private readonly WeightingTable? _d1925;

    /// <summary>Prepares the weighting tables.</summary>
    /// <param name="grid">The wavelengths, reaching over 400-700 nm at least.</param>
    /// <param name="method">The method.</param>
    /// <exception cref="SpectrumRangeException">The grid does not reach over 400-700 nm.</exception>
    public ReadingEvaluator(WavelengthGrid grid, Method method)
    {
        ArgumentNullException.ThrowIfNull(grid);
        ArgumentNullException.ThrowIfNull(method);
        Grid = grid;
        Method = method;
        LuminousTable = WeightingTable.For(grid, method.Luminous);
        ColourTable = WeightingTable.For(grid, method.Colour);
        _d1925 = method.GivesD1925 ? WeightingTable.For(grid, LightAndObserver.CDegree2) : null;
    }

    /// <summary>The wavelengths.</summary>
    public WavelengthGrid Grid { get; }

    /// <summary>The method.</summary>
    public Method Method { get; }

    /// <summary>Weights of the luminous values.</summary>
    public WeightingTable LuminousTable { get; }

    /// <summary>Weights of the colour.</summary>
    public WeightingTable ColourTable { get; }

    /// <summary>Evaluates one reading.</summary>
    /// <param name="totalFractions">Total transmittance, fractions, one per wavelength.</param>
    /// <param name="diffuseFractions">Diffuse transmittance, fractions, one per wavelength; empty where it was not measured.</param>
    /// <exception cref="ArgumentException">A span is not of the grid's length.</exception>
    public ReadingValues Evaluate(ReadOnlySpan<double> totalFractions, ReadOnlySpan<double> diffuseFractions)
    {
        RequireLength(totalFractions, nameof(totalFractions));
        WeightTotal(totalFractions, out double luminousPercent, out Tristimulus colour);
        double transmittance = luminousPercent / 100;
        double diffuse = double.NaN;
        double haze = double.NaN;
        if (!diffuseFractions.IsEmpty)
        {
            RequireLength(diffuseFractions, nameof(diffuseFractions));
            diffuse = VectorMath.Dot(LuminousTable.Y, diffuseFractions) / 100;
            haze = transmittance > 0 ? diffuse / transmittance : double.NaN;
        }

        double e313 = Method.E313 is { } coefficients && colour.Y > 0
            ? YellownessIndex.E313(colour, coefficients).Value
            : double.NaN;
        double d1925 = _d1925 is null ? double.NaN : D1925(_d1925, totalFractions);
        return new ReadingValues(transmittance, diffuse, haze, colour, CieLab.From(colour, ColourTable.White), e313, d1925);
    }

    private static double D1925(WeightingTable table, ReadOnlySpan<double> total)
    {
        var colour = new Tristimulus(VectorMath.Dot(table.X, total), VectorMath.Dot(table.Y, total), VectorMath.Dot(table.Z, total));
        return colour.Y > 0 ? YellownessIndex.D1925(colour).Value : double.NaN;
    }

    /// <summary>Four dot products with the same spectrum in one pass, so that it is loaded once.</summary>
    private void WeightTotal(ReadOnlySpan<double> total, out double luminous, out Tristimulus colour)
    {
        ReadOnlySpan<double> luminousY = LuminousTable.Y;
        ReadOnlySpan<double> colourX = ColourTable.X;
        ReadOnlySpan<double> colourY = ColourTable.Y;
        ReadOnlySpan<double> colourZ = ColourTable.Z;
        int i = 0;
        double y0 = 0;
        double x1 = 0;
        double y1 = 0;
        double z1 = 0;
        if (Vector256.IsHardwareAccelerated)
        {
            ref double t = ref MemoryMarshal.GetReference(total);
            ref double wl = ref MemoryMarshal.GetReference(luminousY);
            ref double wx = ref MemoryMarshal.GetReference(colourX);
            ref double wy = ref MemoryMarshal.GetReference(colourY);
            ref double wz = ref MemoryMarshal.GetReference(colourZ);
            Vector256<double> sl = default;
            Vector256<double> sx = default;
            Vector256<double> sy = default;
            Vector256<double> sz = default;
            for (; i + 4 <= total.Length; i += 4)
            {
                Vector256<double> v = Vector256.LoadUnsafe(ref t, (nuint)i);
                sl = Vector256.MultiplyAddEstimate(v, Vector256.LoadUnsafe(ref wl, (nuint)i), sl);
                sx = Vector256.MultiplyAddEstimate(v, Vector256.LoadUnsafe(ref wx, (nuint)i), sx);
                sy = Vector256.MultiplyAddEstimate(v, Vector256.LoadUnsafe(ref wy, (nuint)i), sy);
                sz = Vector256.MultiplyAddEstimate(v, Vector256.LoadUnsafe(ref wz, (nuint)i), sz);
            }

            y0 = Vector256.Sum(sl);
            x1 = Vector256.Sum(sx);
            y1 = Vector256.Sum(sy);
            z1 = Vector256.Sum(sz);
        }

        for (; i < total.Length; i++)
        {
            y0 += total[i] * luminousY[i];
            x1 += total[i] * colourX[i];
            y1 += total[i] * colourY[i];
            z1 += total[i] * colourZ[i];
        }

        luminous = y0;
        colour = new Tristimulus(x1, y1, z1);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void RequireLength(ReadOnlySpan<double> values, string parameter)
    {
        if (values.Length != Grid.Count)
        {
            ThrowLength(values.Length, parameter);
        }
    }

    private void ThrowLength(int length, string parameter) =>
        throw new ArgumentException($"{parameter} has {length} values; expected {Grid.Count}, one per wavelength.", parameter);
}

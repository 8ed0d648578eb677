using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;
using ClearView.Optics.Transmission.Bands;
using ClearView.Optics.Transmission.Scattering;

namespace ClearView.Optics.Uncertainty;

/// <summary>Quantities that follow from the spectra directly, with their derivatives.</summary>
internal static class SpectralQuantities
{
    /// <summary>Mean transmittance over a band, %; <see langword="null"/> where the scans do not reach over it.</summary>
    public static SpectralGradient? BandMeanPercent(TransmittanceScans scans, Band band)
    {
        if (!Reaches(scans, band.Range))
        {
            return null;
        }

        BandWeights weights = BandWeights.For(scans.Grid, band);
        return new SpectralGradient(
            VectorMath.Dot(scans.Total.Fractions.Slice(weights.First, weights.Percents.Length), weights.Percents), weights.Percents, [], weights.First);
    }

    /// <summary>Greatest transmittance over a range, %; <see langword="null"/> where the scans do not reach over it.</summary>
    public static SpectralGradient? BandMaximumPercent(TransmittanceScans scans, SpectralRange range)
    {
        if (!Reaches(scans, range))
        {
            return null;
        }

        (double fraction, double nm) = BandTransmittance.Maximum(scans.Total, range);
        return LinearAt(scans.Grid, 100 * fraction, nm, 100);
    }

    /// <summary>Wavelength at which transmittance first reaches a level, nm; <see langword="null"/> where there is none.</summary>
    public static SpectralGradient? Edge(TransmittanceScans scans, double levelFraction)
    {
        if (EdgeWavelength.Find(scans.Total, levelFraction).WavelengthNm is not { } nm)
        {
            return null;
        }

        // At the crossing T(λ) = level on a straight line: dλ = −dT(λ) / slope.
        WavelengthGrid grid = scans.Grid;
        int below = Math.Clamp(grid.IndexAtOrBelow(nm), 0, grid.Count - 2);
        if (grid[below] == nm && below > 0)
        {
            below--;
        }

        double slope = (scans.Total.Fractions[below + 1] - scans.Total.Fractions[below]) / (grid[below + 1] - grid[below]);
        return LinearAt(grid, nm, nm, -1 / slope);
    }

    /// <summary>Scattering exponent n of H ∝ λ^−n; <see langword="null"/> where it cannot be fitted.</summary>
    public static SpectralGradient? ScatteringExponentOf(TransmittanceScans scans)
    {
        if (ScatteringExponent.Fit(scans) is not { } fit)
        {
            return null;
        }

        ReadOnlySpan<double> t = scans.Total.Fractions;
        ReadOnlySpan<double> d = scans.Diffuse!.Fractions;
        ReadOnlySpan<double> x = scans.Grid.LogWavelengths;
        double mean = 0;
        double spread = 0;
        int n = 0;
        int first = 0;
        int last = 0;
        for (int i = 0; i < t.Length; i++)
        {
            if (Enters(scans, i))
            {
                first = n == 0 ? i : first;
                last = i;
                n++;
                double deviation = x[i] - mean;
                mean += deviation / n;
                spread += deviation * deviation * ((n - 1.0) / n);
            }
        }

        var total = new double[last - first + 1];
        var diffuse = new double[total.Length];
        for (int i = first; i <= last; i++)
        {
            if (Enters(scans, i))
            {
                // n = −Σ (xᵢ − x̄) ln Hᵢ / Sxx, and ln H = ln D − ln T.
                double factor = -(x[i] - mean) / spread;
                diffuse[i - first] = factor / d[i];
                total[i - first] = -factor / t[i];
            }
        }

        return new SpectralGradient(fit.Exponent, total, diffuse, first);
    }

    /// <summary>Special metamerism index, change in illuminant (CIE 15); <see langword="null"/> where the method does not ask for it or
    /// a tristimulus value under the reference light is not above 0.</summary>
    public static SpectralGradient? MetamerismIndex(TransmittanceScans scans, Method method)
    {
        if (method.Metamerism is not { } test || method.ReferenceColour is not { } reference)
        {
            return null;
        }

        WeightingTable first = WeightingTable.For(scans.Grid, method.Colour);
        WeightingTable second = WeightingTable.For(scans.Grid, test.TestLight);
        DualTristimulus specimen = Variables(first.Weigh(scans.Total), 0);
        if (!(specimen is { X.Value: > 0, Y.Value: > 0, Z.Value: > 0 }))
        {
            return null;
        }

        Dual index = DualDifference.SpecialMetamerism(
            (reference.ToTristimulus(first.White), test.ReferenceColour.ToTristimulus(second.White)),
            specimen,
            Variables(second.Weigh(scans.Total), 3),
            second.White);

        // The sums are linear in the spectrum: ∂y/∂T = Σ ∂y/∂(sum) · weights.
        var gradient = new double[scans.Grid.Count];
        Add(gradient, index.Gradient[0], first.X);
        Add(gradient, index.Gradient[1], first.Y);
        Add(gradient, index.Gradient[2], first.Z);
        Add(gradient, index.Gradient[3], second.X);
        Add(gradient, index.Gradient[4], second.Y);
        Add(gradient, index.Gradient[5], second.Z);
        return new SpectralGradient(index.Value, gradient, []);
    }

    private static DualTristimulus Variables(Tristimulus sums, int from) =>
        new(Dual.Variable(sums.X, from), Dual.Variable(sums.Y, from + 1), Dual.Variable(sums.Z, from + 2));

    private static void Add(double[] gradient, double factor, ReadOnlySpan<double> weights)
    {
        for (int i = 0; i < gradient.Length; i++)
        {
            gradient[i] += factor * weights[i];
        }
    }

    private static bool Enters(TransmittanceScans scans, int i) =>
        scans.Total.Fractions[i] > 0 && ScatteringExponent.Uses(scans.Grid[i], scans.Diffuse!.Fractions[i] / scans.Total.Fractions[i]);

    private static bool Reaches(TransmittanceScans scans, SpectralRange range) =>
        scans.Grid.FirstNm <= range.FromNm && scans.Grid.LastNm >= range.ToNm;

    /// <summary>A quantity whose gradient is that of a multiple of the linearly interpolated value at a wavelength.</summary>
    private static SpectralGradient LinearAt(WavelengthGrid grid, double value, double nm, double factor)
    {
        int below = Math.Min(grid.IndexAtOrBelow(nm), grid.Count - 2);
        double share = (nm - grid[below]) / (grid[below + 1] - grid[below]);
        return new SpectralGradient(value, [factor * (1 - share), factor * share], [], below);
    }
}

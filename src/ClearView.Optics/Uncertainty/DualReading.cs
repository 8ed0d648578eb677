using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;

namespace ClearView.Optics.Uncertainty;

/// <summary>The weighted sums of a reading with their derivatives: what a measurand's differentiable form is written in.</summary>
internal sealed class DualReading
{
    private readonly Method _method;
    private readonly Tristimulus _white;

    public DualReading(ReadOnlySpan<double> sums, Method method, Tristimulus white)
    {
        _method = method;
        _white = white;
        Luminous = Dual.Variable(sums[LinearFunctionals.LuminousTotal], LinearFunctionals.LuminousTotal);
        Diffuse = Dual.Variable(sums[LinearFunctionals.LuminousDiffuse], LinearFunctionals.LuminousDiffuse);
        X = Dual.Variable(sums[LinearFunctionals.X], LinearFunctionals.X);
        Y = Dual.Variable(sums[LinearFunctionals.Y], LinearFunctionals.Y);
        Z = Dual.Variable(sums[LinearFunctionals.Z], LinearFunctionals.Z);
        LegacyX = Dual.Variable(sums[LinearFunctionals.LegacyX], LinearFunctionals.LegacyX);
        LegacyY = Dual.Variable(sums[LinearFunctionals.LegacyY], LinearFunctionals.LegacyY);
        LegacyZ = Dual.Variable(sums[LinearFunctionals.LegacyZ], LinearFunctionals.LegacyZ);
        Lab = DualLab.From(new DualTristimulus(X, Y, Z), white);
    }

    /// <summary>The method's reference colour; the caller knows that there is one.</summary>
    public CieLab ReferenceColour => _method.ReferenceColour!.Value;

    /// <summary>The method's parametric factors.</summary>
    public DifferenceFactors Factors => _method.DifferenceFactors;

    /// <summary>The method's initial yellowness index; the caller knows that there is one.</summary>
    public double InitialYellownessIndex => _method.InitialYellownessIndex!.Value;

    /// <summary>Luminous transmittance, %.</summary>
    public Dual Luminous { get; }

    /// <summary>Diffuse luminous transmittance, %.</summary>
    public Dual Diffuse { get; }

    public Dual X { get; }

    public Dual Y { get; }

    public Dual Z { get; }

    public Dual LegacyX { get; }

    public Dual LegacyY { get; }

    public Dual LegacyZ { get; }

    public DualLab Lab { get; }

    public Dual L => Lab.L;

    public Dual A => Lab.A;

    public Dual B => Lab.B;

    public Dual Haze => 100 * Diffuse / Luminous;

    public Dual ChromaticityX => X / (X + Y + Z);

    public Dual ChromaticityY => Y / (X + Y + Z);

    public Dual UPrime => 4 * X / (X + (15 * Y) + (3 * Z));

    public Dual VPrime => 9 * Y / (X + (15 * Y) + (3 * Z));

    public Dual Chroma => Lab.Chroma;

    public Dual HueDegrees => Lab.HueDegrees;

    public Dual LuvU => 13 * L * (UPrime - _white.ToUniformChromaticity().U);

    public Dual LuvV => 13 * L * (VPrime - _white.ToUniformChromaticity().V);

    public Dual LuvChroma => new DualLab(L, LuvU, LuvV).Chroma;

    public Dual LuvHueDegrees => new DualLab(L, LuvU, LuvV).HueDegrees;

    public Dual YellownessE313 => Yellowness(_method.E313!);

    public Dual YellownessIso17223 => Yellowness(_method.Iso17223!);

    public Dual YellownessD1925 => 100 * ((1.28 * LegacyX) - (1.06 * LegacyZ)) / LegacyY;

    /// <summary>Dominant or complementary wavelength, nm; NaN for a colour at the white point.</summary>
    public Dual Wavelength => Dominant() is { } dominant ? Meet(dominant.WavelengthNm).Nm : double.NaN;

    /// <summary>Excitation purity, %; NaN for a colour at the white point.</summary>
    public Dual PurityPercent
    {
        get
        {
            if (Dominant() is not { } dominant)
            {
                return double.NaN;
            }

            return dominant.IsComplementary ? 100 * PurplePurity() : 100 * Meet(dominant.WavelengthNm).Purity;
        }
    }

    private Dual Yellowness(E313Coefficients coefficients) => 100 * ((coefficients.Cx * X) - (coefficients.Cz * Z)) / Y;

    private DominantWavelength? Dominant() =>
        DominantWavelength.Find(new Tristimulus(X.Value, Y.Value, Z.Value), _white, _method.Colour.Observer);

    private (Dual Nm, Dual Purity) Meet(double nearNm)
    {
        var points = _method.Colour.Observer.Locus.Points;
        int segment = Math.Clamp((int)Math.Floor(nearNm - SpectralLocus.FirstNm), 0, points.Length - 2);
        (Dual share, Dual purity) = Intersect(points[segment], points[segment + 1]);
        return (share + (SpectralLocus.FirstNm + segment), purity);
    }

    private Dual PurplePurity()
    {
        var points = _method.Colour.Observer.Locus.Points;
        return Intersect(points[^1], points[0]).Purity;
    }

    /// <summary>The line from the white point through the colour with a segment: share of the segment, and colour distance over boundary distance.</summary>
    private (Dual Share, Dual Purity) Intersect(Chromaticity from, Chromaticity to)
    {
        Chromaticity w = _white.ToChromaticity();
        Dual dx = ChromaticityX - w.X;
        Dual dy = ChromaticityY - w.Y;
        double sx = to.X - from.X;
        double sy = to.Y - from.Y;
        double ox = from.X - w.X;
        double oy = from.Y - w.Y;
        Dual cross = (dx * sy) - (dy * sx);
        return (((ox * dy) - (oy * dx)) / cross, cross / ((ox * sy) - (oy * sx)));
    }
}

using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;
using ClearView.Optics.Uncertainty;

namespace ClearView.Optics.Tests.Uncertainty;

/// <summary>Uncertainty wavelength by wavelength, by hand and against drawn spectra.</summary>
public class SpectralUncertaintyTests
{
    private static readonly TransmittanceScans Scans = InventedFilm.Scans;

    // By hand: u(H) = (100/T)·√(u(D)² + (D/T)²·u(T)²), total and diffuse being read one after the other.
    [Fact]
    public void Of_Repeatability_IsIndependentBetweenTotalAndDiffuse()
    {
        SpectralUncertainty result = Of(new UncertaintyInputs { RepeatabilityPercent = 0.1 });

        Assert.All(result.TotalFraction, u => Assert.Equal(0.001, u, 1e-15));
        Assert.All(result.DiffuseFraction, u => Assert.Equal(0.001, u, 1e-15));
        for (int i = 0; i < Scans.Grid.Count; i++)
        {
            double t = Scans.Total.Fractions[i];
            double d = Scans.Diffuse!.Fractions[i];
            Assert.Equal(100 / t * 0.001 * Math.Sqrt(1 + (d / t * d / t)), result.HazePercent[i], 1e-12);
        }
    }

    // By hand: a drift of the 100 % line moves T and D by the same share and cancels in haze; an offset d moves both by
    // (T − 1)d and (D − 1)d, and haze by 100·d·|(D − 1)/T − D(T − 1)/T²| = 100·d·(1 − H)/T.
    [Fact]
    public void Of_WholeSpectrumErrors_MoveHazeWithTheCovarianceOfBothSpectra()
    {
        SpectralUncertainty drift = Of(new UncertaintyInputs { HundredLineDriftPercent = 0.5 });
        SpectralUncertainty offset = Of(new UncertaintyInputs { ZeroOffsetPercent = 0.02 });

        for (int i = 0; i < Scans.Grid.Count; i++)
        {
            double t = Scans.Total.Fractions[i];
            double h = Scans.Diffuse!.Fractions[i] / t;
            Assert.Equal(0.005 * t, drift.TotalFraction[i], 1e-15);
            Assert.Equal(0, drift.HazePercent[i], 1e-11);
            Assert.Equal(0.0002 * (1 - t), offset.TotalFraction[i], 1e-15);
            Assert.Equal(100 * 0.0002 * (1 - h) / t, offset.HazePercent[i], 1e-10);
        }
    }

    // JCGM 101: the standard deviation of drawn spectra; 4000 draws give it to about 1.1 %, asked to 6 %.
    [Fact]
    public void Of_EverySource_AgreesWithDrawnSpectra()
    {
        var inputs = new UncertaintyInputs
        {
            RepeatabilityPercent = 0.02,
            ZeroOffsetPercent = 0.02,
            HundredLineDriftPercent = 0.1,
            LinearityPercent = 0.05,
            WavelengthShiftNm = 0.2,
            StrayLightPercent = 0.02,
            BandpassNm = 5,
        };
        SpectralUncertainty expected = Of(inputs);
        var draw = new SpectrumDraw(Scans, inputs.ToSources(Scans));
        var random = new TrialRandom(5);
        const int n = 4000;
        int at = Scans.Grid.IndexAtOrBelow(450);
        var totals = new double[n];
        var hazes = new double[n];
        for (int k = 0; k < n; k++)
        {
            draw.Next(random);
            totals[k] = draw.Total[at];
            hazes[k] = 100 * draw.Diffuse[at] / draw.Total[at];
        }

        Assert.Equal(1, Deviation(totals) / expected.TotalFraction[at], 0.06);
        Assert.Equal(1, Deviation(hazes) / expected.HazePercent[at], 0.06);
    }

    [Fact]
    public void Of_NoDiffuseOrNoLight_HasNoHaze()
    {
        var inputs = new UncertaintyInputs { RepeatabilityPercent = 0.1 };
        var total = new TransmittanceScans(Scans.Total, null);
        double[] dark = Scans.Total.Fractions.ToArray();
        dark[3] = 0;
        var opaque = new TransmittanceScans(TransmittanceSpectrum.FromFractions(Scans.Grid, dark), Scans.Diffuse);

        SpectralUncertainty alone = SpectralUncertainty.Of(total, inputs.ToSources(total));

        Assert.Empty(alone.DiffuseFraction);
        Assert.Empty(alone.HazePercent);
        Assert.Equal([3], Positions(SpectralUncertainty.Of(opaque, inputs.ToSources(opaque)).HazePercent, double.IsNaN));
    }

    // What the report gives is the same.
    [Fact]
    public void Report_GivesTheSpectra()
    {
        var method = new Method(HazeStandard.AstmD1003ProcedureB, LightAndObserver.CDegree2, LightAndObserver.D65Degree10, []);
        var inputs = new UncertaintyInputs { RepeatabilityPercent = 0.1, WavelengthShiftNm = 0.2 };

        UncertaintyReport report = UncertaintyReport.Of(Evaluator.Evaluate(Scans, method), inputs, 0.95, null);

        Assert.Equal(Of(inputs).HazePercent, report.Spectra.HazePercent);
    }

    private static SpectralUncertainty Of(UncertaintyInputs inputs) => SpectralUncertainty.Of(Scans, inputs.ToSources(Scans));

    private static int[] Positions(IEnumerable<double> values, Func<double, bool> matches) =>
        [.. values.Index().Where(item => matches(item.Item)).Select(item => item.Index)];

    private static double Deviation(double[] values)
    {
        double mean = values.Average();
        return Math.Sqrt(values.Sum(v => (v - mean) * (v - mean)) / (values.Length - 1));
    }
}

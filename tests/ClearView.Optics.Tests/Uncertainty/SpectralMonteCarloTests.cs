using System.Collections.Immutable;

using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;
using ClearView.Optics.Transmission.Bands;
using ClearView.Optics.Transmission.Thickness;
using ClearView.Optics.Uncertainty;

namespace ClearView.Optics.Tests.Uncertainty;

/// <summary>Monte Carlo with whole drawn spectra: bands, edges, maxima, scattering exponent, reference thickness.</summary>
public class SpectralMonteCarloTests
{
    private static readonly Method Method = new(
        HazeStandard.AstmD1003ProcedureB, LightAndObserver.CDegree2, LightAndObserver.D65Degree10, [YellownessKind.AstmE313])
    {
        LightBarrierLimitFraction = 0.1,
    };

    private static readonly UncertaintyInputs Inputs = new()
    {
        RepeatabilityPercent = 0.01,
        ZeroOffsetPercent = 0.01,
        HundredLineDriftPercent = 0.1,
        WavelengthShiftNm = 0.1,
    };

    [Fact]
    public void Report_EveryMeasurandOfAnEvaluation_GetsAMonteCarloResult()
    {
        Evaluation evaluation = Evaluator.Evaluate(InventedFilm.Scans, Method);

        UncertaintyReport report = UncertaintyReport.Of(evaluation, Inputs, 0.95, new MonteCarloOptions(3, 0.95, 1, 5_000, 10_000));

        Assert.All(evaluation.Values, value => Assert.NotNull(report.Trials(value.Measurand)));
        Assert.Contains(evaluation.Values, value => value.Measurand == Measurands.LightBarrierMaximum);
        Assert.Contains(evaluation.Values, value => value.Measurand == Measurands.ScatteringExponent);
    }

    // JCGM 101, clause 8: a band's mean is a weighted sum; an edge on a steep flank, the exponent of a strong haze and the
    // maximum at the end of a rising flank are as good as linear.
    [Fact]
    public void LinearResult_WhereLinearHolds_IsValidated()
    {
        UncertaintyReport report = UncertaintyReport.Of(
            Evaluator.Evaluate(InventedFilm.Scans, Method), Inputs, 0.95, new MonteCarloOptions(4, 0.95, 1, 20_000, 100_000));

        Measurand[] linear =
        [
            .. Measurands.OfNamedBands.Where(m => m.Id.StartsWith("band_mean", StringComparison.Ordinal) && report.Linear(m) is not null),
            Measurands.Edges[1], Measurands.Edges[2], Measurands.ScatteringExponent, Measurands.LightBarrierMaximum,
            Measurands.LuminousTransmittance, Measurands.Haze, Measurands.CielabB,
        ];
        Assert.All(linear, measurand => Assert.True(report.Confirms(measurand), $"{report.Linear(measurand)} {report.Trials(measurand)}"));
    }

    // Theory: the greatest of n independent normal errors has the mean 2.043 σ for n = 30 (tables of normal order statistics,
    // from memory), whereas the linear result has none: it is flagged.
    [Fact]
    public void MaximumOfAFlatNoisyBand_IsBiasedUpwards_AndTheLinearResultIsFlagged()
    {
        WavelengthGrid grid = WavelengthGrid.Between(380, 780, 5);
        var flat = new TransmittanceScans(TransmittanceSpectrum.FromFractions(grid, [.. Enumerable.Repeat(0.8, grid.Count)]), null);

        // 30 wavelengths: 400 to 545 nm.
        var band = Band.Between(400, 545);
        var method = new Method(HazeStandard.AstmD1003ProcedureB, LightAndObserver.CDegree2, LightAndObserver.D65Degree10, []) { Bands = [band] };
        Evaluation evaluation = Evaluator.Evaluate(flat, method);
        Measurand maximum = Measurands.OfBand(band)[1];

        UncertaintyReport report = UncertaintyReport.Of(
            evaluation, new UncertaintyInputs { RepeatabilityPercent = 0.1 }, 0.95, new MonteCarloOptions(6, 0.95, 1, 20_000, 40_000));

        Assert.Equal(80 + (2.043 * 0.1), report.Trials(maximum)!.Mean, 0.002);
        Assert.Equal(80, report.Linear(maximum)!.Value, 1e-12);
        Assert.Contains(maximum, report.NotConfirmed);
    }

    // The two ways of drawing are one: a measurand of weighted sums has the same distribution from drawn sums and drawn spectra.
    [Fact]
    public void DrawnSums_AndDrawnSpectra_HaveTheSameDistribution()
    {
        TransmittanceScans scans = InventedFilm.Scans;
        var evaluator = new ReadingEvaluator(scans.Grid, Method);
        var inputs = Inputs with { RepeatabilityPercent = 0.3 };
        var options = new MonteCarloOptions(9, 0.95, 2, 20_000, 60_000);

        ImmutableArray<MonteCarloResult> sums = MonteCarloPropagation.Run(
            evaluator, scans, inputs.ToSources(scans), [Measurands.Haze, Measurands.CielabB], options);
        ImmutableArray<MonteCarloResult> spectra = MonteCarloPropagation.Run(
            evaluator, scans, inputs.ToSources(scans), [Measurands.Haze, Measurands.CielabB, Measurands.LightBarrierMaximum], options);

        for (int j = 0; j < sums.Length; j++)
        {
            double u = sums[j].StandardUncertainty;
            Assert.Equal(sums[j].Mean, spectra[j].Mean, 0.03 * u);
            Assert.Equal(1, spectra[j].StandardUncertainty / u, 0.02);
            Assert.Equal(sums[j].IntervalLow, spectra[j].IntervalLow, 0.06 * u);
            Assert.Equal(sums[j].IntervalHigh, spectra[j].IntervalHigh, 0.06 * u);
        }
    }

    // Twice the thickness: the linear result carries slopes, the Monte Carlo run scales every drawn spectrum.
    [Fact]
    public void ScaledReport_IsValidatedByScalingEveryDrawnSpectrum()
    {
        Method method = Method.WithThickness(new ThicknessScaling(Resin.Polypropylene.Index, 500, 1000));
        Evaluation evaluation = Evaluator.Evaluate(InventedFilm.Scans, method);

        UncertaintyReport report = UncertaintyReport.OfScaled(
            evaluation.AtReferenceThickness!, evaluation, Inputs, 0.95, new MonteCarloOptions(8, 0.95, 1, 10_000, 40_000));

        Measurand[] linear = [Measurands.LuminousTransmittance, Measurands.CielabL, Measurands.CielabB, Measurands.Edges[2]];
        Assert.All(linear, measurand => Assert.True(report.Confirms(measurand), $"{report.Linear(measurand)} {report.Trials(measurand)}"));
        Assert.Equal(report.Results.Select(r => r.Measurand), report.Results.Select(r => r.Measurand).Where(m => report.Trials(m) is not null));
    }

    // Haze is untouched by a drift of the 100 % line: u is rounding, and must neither run to the bound nor count as unconfirmed.
    [Fact]
    public void ErrorsThatCancel_AreStableAndConfirmed()
    {
        UncertaintyReport report = UncertaintyReport.Of(
            Evaluator.Evaluate(InventedFilm.Scans, Method),
            new UncertaintyInputs { HundredLineDriftPercent = 0.5 },
            0.95,
            new MonteCarloOptions(2, 0.95, 1, 5_000, 20_000));

        Assert.True(report.Trials(Measurands.Haze)!.IsStable);
        Assert.True(report.Confirms(Measurands.Haze));
    }

    [Fact]
    public void Select_FindsEveryOrderStatistic()
    {
        var random = new TrialRandom(1);
        double[] values = [.. Enumerable.Range(0, 501).Select(_ => Math.Round(20 * random.Uniform()))];
        double[] sorted = [.. values.Order()];

        Assert.All(Enumerable.Range(0, values.Length), k => Assert.Equal(sorted[k], OrderStatistic.Select(values.ToArray(), k)));
    }
}

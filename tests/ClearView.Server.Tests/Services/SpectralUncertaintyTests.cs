using ClearView.Contract.Tests;
using ClearView.V1;

namespace ClearView.Server.Tests.Services;

/// <summary>Standard uncertainties of the spectra on the wire, one source at a time, by hand (JCGM 100, 5.1).</summary>
public sealed class SpectralUncertaintyTests
{
    // WireExamples.Normalised: total 0.9, diffuse 0.018, haze 2 %.
    private const double Total = 0.9;
    private const double Diffuse = 0.018;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Evaluate_WithRepeatability_MovesTotalAndDiffuseIndependently()
    {
        var spectra = await SpectraAsync(new UncertaintyInputs { CoveragePercent = 95, RepeatabilityPercent = 0.1 });

        // u(H)² = (100/T)²·(u² + (D/T)²·u²) with u = 0.001.
        AllAre(0.001, spectra.TotalStandardUncertaintyFraction);
        AllAre(0.001, spectra.DiffuseStandardUncertaintyFraction);
        AllAre(100 / Total * 0.001 * Math.Sqrt(1 + (Diffuse / Total * Diffuse / Total)), spectra.HazeStandardUncertaintyPercent);
    }

    [Fact]
    public async Task Evaluate_WithDriftOfThe100PercentLine_LeavesHazeAlone()
    {
        var spectra = await SpectraAsync(new UncertaintyInputs { CoveragePercent = 95, HundredLineDriftPercent = 0.5 });

        // A factor on both: 0.5 % of 0.9 and of 0.018; it cancels in their ratio.
        AllAre(0.0045, spectra.TotalStandardUncertaintyFraction);
        AllAre(0.00009, spectra.DiffuseStandardUncertaintyFraction);
        AllAre(0, spectra.HazeStandardUncertaintyPercent);
    }

    [Fact]
    public async Task Evaluate_WithOffsetOfThe0PercentLine_MovesBothTogether()
    {
        var spectra = await SpectraAsync(new UncertaintyInputs { CoveragePercent = 95, ZeroOffsetPercent = 0.1 });

        // dT = (T − 1)·0.001 = −0.0001 and dD = (D − 1)·0.001 = −0.000982; dH = 100/T·(dD − D/T·dT) = 100/0.9·(−0.00098).
        AllAre(0.0001, spectra.TotalStandardUncertaintyFraction);
        AllAre(0.000982, spectra.DiffuseStandardUncertaintyFraction);
        AllAre(0.098 / Total, spectra.HazeStandardUncertaintyPercent);
    }

    [Fact]
    public async Task Evaluate_WithoutInputs_SendsNone()
    {
        var spectra = await SpectraAsync(null);

        Assert.Empty(spectra.TotalStandardUncertaintyFraction);
        Assert.Empty(spectra.DiffuseStandardUncertaintyFraction);
        Assert.Empty(spectra.HazeStandardUncertaintyPercent);
    }

    [Fact]
    public async Task Evaluate_WithoutDiffuse_SendsThatOfTheTotalOnly()
    {
        var spectra = await SpectraAsync(new UncertaintyInputs { CoveragePercent = 95, RepeatabilityPercent = 0.1 }, withDiffuse: false);

        AllAre(0.001, spectra.TotalStandardUncertaintyFraction);
        Assert.Empty(spectra.DiffuseStandardUncertaintyFraction);
        Assert.Empty(spectra.HazeStandardUncertaintyPercent);
    }

    private static void AllAre(double expected, IList<double> values)
    {
        Assert.Equal(43, values.Count);
        Assert.All(values, value => Assert.Equal(expected, value, 1e-12));
    }

    private static async Task<TransmittanceSpectra> SpectraAsync(UncertaintyInputs? inputs, bool withDiffuse = true)
    {
        await using var server = await TestServer.StartAsync();
        var request = new EvaluateRequest { Measurement = WireExamples.Normalised(Total, Diffuse), Method = WireExamples.Method() };
        request.Method.Uncertainty = inputs;
        if (!withDiffuse)
        {
            request.Measurement.Scans.Normalised.DiffuseTransmittance.Clear();
        }

        return (await server.Evaluations.EvaluateAsync(request, cancellationToken: Token)).Evaluation.Spectra;
    }
}

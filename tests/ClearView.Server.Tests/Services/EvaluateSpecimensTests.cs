using ClearView.Contract;
using ClearView.Contract.Tests;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Tests.Services;

public sealed class EvaluateSpecimensTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(0, false)]
    [InlineData(1, true)]
    [InlineData(200, true)]
    [InlineData(201, false)]
    public async Task EvaluateSpecimens_Number_IsTakenUpToItsLimits(int count, bool accepted)
    {
        await using var server = await TestServer.StartAsync();
        var request = new EvaluateSpecimensRequest { Method = WireExamples.Method(), OmitSpectra = true };
        request.Measurements.AddRange(Enumerable.Range(0, count).Select(i => WireExamples.Normalised(0.8 + i * 0.0005)));

        var call = server.Evaluations.EvaluateSpecimensAsync(request, cancellationToken: Token);

        if (accepted)
        {
            var response = await call;
            Assert.Equal(count, response.Evaluations.Count);
            Assert.All(response.Evaluations, evaluation => Assert.Null(evaluation.Spectra));
            Assert.All(response.Means, mean => Assert.Equal((uint)count, mean.SpecimenCount));
        }
        else
        {
            var faults = await Rpc.FaultsAsync(StatusCode.InvalidArgument, call);
            Assert.Equal($"had {count} measurements; expected 1 to 200.", Assert.Single(faults, fault => fault.Key == "measurements").Value);
        }
    }

    [Fact]
    public async Task EvaluateSpecimens_SeveralAtFault_NamesEachByItsPlaceAndTheMethodOnce()
    {
        await using var server = await TestServer.StartAsync();
        var request = Request(0.8, 0.85, 0.9, 0.95);
        request.Measurements[0].Identification.Specimen = "";
        request.Measurements[2].Conditions.ApertureMm = 0;
        request.Measurements[2].Scans.Normalised.TotalTransmittance[7] = double.NaN;
        request.Measurements[3].Scans = null;
        request.Method.Luminous.Illuminant = "moonlight";

        var faults = await Rpc.FaultsAsync(
            StatusCode.InvalidArgument, server.Evaluations.EvaluateSpecimensAsync(request, cancellationToken: Token));

        Assert.Equal(
            [
                "measurements[0].identification.specimen",
                "measurements[2].conditions.aperture_mm",
                "measurements[2].scans.normalised.total_transmittance[7]",
                "measurements[3].scans",
                "method.luminous.illuminant",
            ],
            faults.Keys.Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task EvaluateSpecimens_NothingAtAll_NamesMethodAndMeasurements()
    {
        await using var server = await TestServer.StartAsync();

        var faults = await Rpc.FaultsAsync(
            StatusCode.InvalidArgument, server.Evaluations.EvaluateSpecimensAsync(new EvaluateSpecimensRequest(), cancellationToken: Token));

        Assert.Equal(["measurements", "method_choice"], faults.Keys.Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task EvaluateSpecimens_UnknownName_IsNotFound()
    {
        await using var server = await TestServer.StartAsync();
        var request = Request(0.8);
        request.MethodName = new MethodName { Name = "nobody" };

        await Rpc.FailsAsync(StatusCode.NotFound, server.Evaluations.EvaluateSpecimensAsync(request, cancellationToken: Token));
    }

    [Fact]
    public async Task EvaluateSpecimens_Spectral_GivesTheSingleEvaluationsAndTheirMeans()
    {
        await using var server = await TestServer.StartAsync();
        var request = Request(0.80, 0.86, 0.92);
        for (var i = 0; i < request.Measurements.Count; i++)
        {
            // A slope, so that colour and yellowness are something.
            var total = request.Measurements[i].Scans.Normalised.TotalTransmittance;
            for (var j = 0; j < total.Count; j++)
            {
                total[j] -= 0.003 * (i + 1) * (total.Count - j) / total.Count;
            }
        }

        var response = await server.Evaluations.EvaluateSpecimensAsync(request, cancellationToken: Token);

        var singles = request.Measurements
            .Select(measurement => MeasurementEvaluator.Evaluate(measurement, request.Method, WireExamples.Clock).Evaluation!).ToList();
        Assert.Equal(singles, response.Evaluations);
        var measurands = singles[0].Values.Where(value => value.Unit != "°").Select(value => value.Measurand).Distinct().ToList();
        Assert.Equal(measurands, response.Means.Select(mean => mean.Measurand));
        Assert.Contains("haze", measurands);
        Assert.Contains("yellowness_index_e313", measurands);
        Assert.Contains(singles[0].Values, value => value.Measurand == "cielab_hue");
        Assert.DoesNotContain("cielab_hue", measurands);
        foreach (var mean in response.Means)
        {
            // By hand: the arithmetic mean, and the root of the squares over n − 1.
            var values = singles.Select(single => single.Values.First(value => value.Measurand == mean.Measurand).Value).ToList();
            var expected = (values[0] + values[1] + values[2]) / 3;
            var squares = values.Sum(value => Math.Pow(value - expected, 2));
            Assert.Equal(expected, mean.Mean, 1e-10);
            Assert.Equal(Math.Sqrt(squares / 2), mean.StandardDeviation, 1e-10);
            Assert.Equal(singles[0].Values.First(value => value.Measurand == mean.Measurand).Unit, mean.Unit);
            Assert.Null(mean.Uncertainty);
        }
    }

    [Fact]
    public async Task EvaluateSpecimens_MeasurandThatOneSpecimenLacks_HasNoMean()
    {
        await using var server = await TestServer.StartAsync();
        var request = Request(0.8, 0.9);
        request.Measurements[1].Scans.Normalised.DiffuseTransmittance.Clear();

        var response = await server.Evaluations.EvaluateSpecimensAsync(request, cancellationToken: Token);

        Assert.Contains(response.Evaluations[0].Values, value => value.Measurand == "haze");
        Assert.DoesNotContain(response.Means, mean => mean.Measurand == "haze");
        Assert.Contains(response.Means, mean => mean.Measurand == "luminous_transmittance");
    }

    [Fact]
    public async Task EvaluateSpecimens_WithUncertaintyInputs_GivesTheUncertaintyOfTheMean()
    {
        await using var server = await TestServer.StartAsync();
        var request = Request(0.84, 0.86);
        request.Method.Uncertainty = new UncertaintyInputs { CoveragePercent = 95, RepeatabilityPercent = 0.5, HundredLineDriftPercent = 1 };

        var response = await server.Evaluations.EvaluateSpecimensAsync(request, cancellationToken: Token);

        // By hand: 84 % and 86 % have s = √2 %, hence 1 % of type A with one degree of freedom, which holds the repeatability
        // (JCGM 100, 4.2.3 and 4.3.10); a drift of 1 % moves both, hence their mean of 85 % by 0.85 % (5.2.2).
        // u² = 1 + 0.7225; degrees of freedom u⁴/(1⁴/1) (Welch-Satterthwaite, G.4.1).
        var uncertainty = Mean(response, "luminous_transmittance").Uncertainty;
        Assert.Equal(["Specimen-to-specimen spread", "100 % line drift"], uncertainty.Budget.Select(part => part.Source));
        Assert.Equal(1, uncertainty.Budget[0].StandardUncertainty, 1e-9);
        Assert.Equal(0.85, uncertainty.Budget[1].StandardUncertainty, 1e-9);
        Assert.Equal(Math.Sqrt(1.7225), uncertainty.StandardUncertainty, 1e-9);
        Assert.Equal(1.7225 * 1.7225, uncertainty.EffectiveDegreesOfFreedom, 1e-8);
        Assert.Equal(95, uncertainty.CoveragePercent, 1e-12);
        Assert.Equal(uncertainty.CoverageFactor * uncertainty.StandardUncertainty, uncertainty.ExpandedUncertainty, 1e-12);
    }

    [Fact]
    public async Task EvaluateSpecimens_OneSpecimen_HasNeitherDeviationNorUncertaintyOfTheMean()
    {
        await using var server = await TestServer.StartAsync();
        var request = Request(0.84);
        request.Method.Uncertainty = new UncertaintyInputs { CoveragePercent = 95, HundredLineDriftPercent = 1 };

        var response = await server.Evaluations.EvaluateSpecimensAsync(request, cancellationToken: Token);

        Assert.NotNull(response.Evaluations[0].Values[0].Uncertainty);
        Assert.NotEmpty(response.Means);
        Assert.All(response.Means, mean =>
        {
            Assert.False(mean.HasStandardDeviation);
            Assert.Null(mean.Uncertainty);
        });
    }

    [Fact]
    public async Task EvaluateSpecimens_HazemeterReadings_GiveTheirMean()
    {
        await using var server = await TestServer.StartAsync();
        var request = new EvaluateSpecimensRequest
        {
            Measurements = { WireExamples.Hazemeter(), WireExamples.Hazemeter() },
            MethodName = new MethodName { Name = "astm-hazemeter" },
        };
        request.Measurements[1].Scans.Hazemeter.TotalReading = 90;

        var response = await server.Evaluations.EvaluateSpecimensAsync(request, cancellationToken: Token);

        // By hand: T2/T1 is 92 % and 90 %.
        Assert.Equal(91, Mean(response, "luminous_transmittance").Mean, 1e-12);
        Assert.Equal(Math.Sqrt(2), Mean(response, "luminous_transmittance").StandardDeviation, 1e-12);
        Assert.All(response.Evaluations, one => Assert.Equal(new MethodName { Name = "astm-hazemeter", Version = 1 }, one.MethodName));
    }

    [Fact]
    public async Task EvaluateSpecimens_PlacesOnAWall_AreSummarisedByRegion()
    {
        await using var server = await TestServer.StartAsync();
        var request = Request(0.90, 0.70, 0.80, 0.86, 0.50);
        Place(request.Measurements[0], WallRegion.Panel, 250);
        Place(request.Measurements[1], WallRegion.Shoulder, null);
        Place(request.Measurements[2], WallRegion.Panel, 300);
        Place(request.Measurements[3], WallRegion.Panel, null);

        // A specimen without a place on a wall counts for the means only.
        request.Measurements[4].Conditions.ThicknessUm = 10;

        var response = await server.Evaluations.EvaluateSpecimensAsync(request, cancellationToken: Token);

        // By hand: 90, 80 and 86 % on the panel have the mean 85 1/3 %, and the thinnest place, 250 µm, has 90 %.
        var summaries = response.WallSummaries.Where(summary => summary.Measurand == "luminous_transmittance").ToList();
        Assert.Equal([WallRegion.Panel, WallRegion.Shoulder], summaries.Select(summary => summary.Region));
        var panel = summaries[0];
        Assert.Equal(80, panel.Minimum, 1e-9);
        Assert.Equal(256.0 / 3, panel.Mean, 1e-9);
        Assert.Equal(90, panel.Maximum, 1e-9);
        Assert.Equal(3u, panel.PlaceCount);
        Assert.Equal(250, panel.ThinnestUm);
        Assert.Equal(90, panel.AtThinnest, 1e-9);
        var shoulder = summaries[1];
        Assert.Equal(70, shoulder.Minimum, 1e-9);
        Assert.Equal(70, shoulder.Mean, 1e-9);
        Assert.Equal(70, shoulder.Maximum, 1e-9);
        Assert.Equal(1u, shoulder.PlaceCount);
        Assert.False(shoulder.HasThinnestUm);
        Assert.False(shoulder.HasAtThinnest);

        // Haze by hand: 100 × 0.018/0.9 = 2 % to 100 × 0.018/0.8 = 2.25 %.
        var haze = response.WallSummaries.Single(summary => summary is { Measurand: "haze", Region: WallRegion.Panel });
        Assert.Equal(2, haze.Minimum, 1e-9);
        Assert.Equal(2.25, haze.Maximum, 1e-9);
        Assert.Equal(5u, Mean(response, "luminous_transmittance").SpecimenCount);
    }

    private static void Place(Measurement measurement, WallRegion region, double? thicknessUm)
    {
        measurement.Identification.Wall = new WallPosition { Region = region };
        if (thicknessUm is { } thickness)
        {
            measurement.Conditions.ThicknessUm = thickness;
        }
    }

    private static SpecimenMean Mean(EvaluateSpecimensResponse response, string measurand) =>
        response.Means.Single(mean => mean.Measurand == measurand);

    private static EvaluateSpecimensRequest Request(params double[] totals) => new()
    {
        Measurements = { totals.Select(total => WireExamples.Normalised(total)) },
        Method = WireExamples.Method(),
    };
}

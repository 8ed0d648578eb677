using ClearView.Contract.Tests;
using ClearView.Records.Model;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

using Grpc.Core;

using Microsoft.Extensions.DependencyInjection;

namespace ClearView.Server.Tests.Services;

public sealed class StudyTests
{
    private static readonly StoredSeries Film = new() { Filter = new SeriesFilter { Measurand = "haze", Product = "clear 25" } };

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private static DateTimeOffset Start => WireExamples.Clock.GetUtcNow().AddHours(-1);

    // Stored readings and the same values brought along have the same capability; the limits are those of the specification.
    [Fact]
    public async Task Capability_OfStoredReadings_IsThatOfTheirValues()
    {
        await using var server = await TestServer.StartAsync();
        double[] hazes = [2.1, 2.0, 2.2, 1.9, 2.05, 2.15, 1.95, 2.1, 2.0, 1.9, 2.2, 2.05];
        for (var i = 0; i < hazes.Length; i++)
        {
            await PostAsync(server, hazes[i], i);
        }

        await PostAsync(server, 9, hazes.Length, identification => identification.Product = "opal 40");
        await server.Specifications.StoreSpecificationAsync(DecisionExamples.Store("film-25", DecisionExamples.Film()), cancellationToken: Token);

        var stored = (await server.Studies.EstimateCapabilityAsync(
            new EstimateCapabilityRequest { Stored = Film, SpecificationName = new SpecificationName { Name = "film-25" } }, cancellationToken: Token)).Capability;
        var given = (await server.Studies.EstimateCapabilityAsync(
            new EstimateCapabilityRequest
            {
                Given = new GivenSeries { Measurand = "haze", Value = { hazes } },
                Limits = new SeriesLimits { Upper = 3 },
            },
            cancellationToken: Token)).Capability;

        Assert.Equal(new SeriesLimits { Upper = 3 }, stored.Limits);
        Assert.Equal("", stored.Refusal);
        Assert.Equal(12ul, stored.ReadingCount);
        Assert.Equal(hazes.Average(), stored.Mean, 1e-9);
        Assert.Equal(["Cpk", "Ppk"], stored.Indices.Select(index => index.Symbol));
        Assert.All(stored.Indices.Zip(given.Indices), pair => Assert.Equal(pair.Second.Value, pair.First.Value, 1e-9));
        Assert.Equal((3 - hazes.Average()) / (3 * stored.OverallStandardDeviation), stored.Indices[1].Value, 1e-9);
    }

    [Fact]
    public async Task Capability_WithoutReadings_IsAnAnswerWithTheReason()
    {
        await using var server = await TestServer.StartAsync();

        var response = await server.Studies.EstimateCapabilityAsync(
            new EstimateCapabilityRequest { Stored = Film, Limits = new SeriesLimits { Upper = 3 } }, cancellationToken: Token);

        Assert.Contains("0 readings", response.Capability.Refusal, StringComparison.Ordinal);
        Assert.Empty(response.Capability.Indices);
    }

    [Fact]
    public async Task Study_UnderASpecification_ThatIsNotThereOrHasNoSuchLimit_IsRefused()
    {
        await using var server = await TestServer.StartAsync();
        await server.Specifications.StoreSpecificationAsync(DecisionExamples.Store("film-25", DecisionExamples.Film()), cancellationToken: Token);
        EstimateCapabilityRequest Capability(string measurand, string name) => new()
        {
            Stored = new StoredSeries { Filter = new SeriesFilter { Measurand = measurand } },
            SpecificationName = new SpecificationName { Name = name },
        };
        var roll = new MapRollRequest
        {
            Given = new GivenSeries { Measurand = "luminous_transmittance", Value = { 90 }, AcrossMm = { 1 }, AlongM = { 1 } },
            SpecificationName = new SpecificationName { Name = "film-25" },
        };

        await Rpc.FailsAsync(StatusCode.NotFound, server.Studies.EstimateCapabilityAsync(Capability("haze", "film-40"), cancellationToken: Token));
        var faults = await Rpc.FaultsAsync(
            StatusCode.InvalidArgument, server.Studies.EstimateCapabilityAsync(Capability("luminous_transmittance", "film-25"), cancellationToken: Token));
        var rollFaults = await Rpc.FaultsAsync(StatusCode.InvalidArgument, server.Studies.MapRollAsync(roll, cancellationToken: Token));

        Assert.Contains("it has limits on haze", Assert.Contains("specification_name", faults), StringComparison.Ordinal);
        Assert.Equal(["specification_name"], rollFaults.Keys);
    }

    [Fact]
    public async Task Study_EveryFieldAtFault_IsNamedAtOnce()
    {
        await using var server = await TestServer.StartAsync();

        var faults = await Rpc.FaultsAsync(StatusCode.InvalidArgument, server.Studies.EstimateCapabilityAsync(
            new EstimateCapabilityRequest
            {
                Stored = new StoredSeries
                {
                    Filter = new SeriesFilter { Measurand = "gloss", Line = new string('x', 101) },
                    Span = new MeasuredSpan { MeasuredFrom = Start.ToTimestamp(), MeasuredBefore = Start.ToTimestamp() },
                },
                SpecificationName = new SpecificationName { Name = "Film 25" },
                Options = new CapabilityOptions { SubgroupCount = 26 },
            },
            cancellationToken: Token));

        Assert.Equal(
            ["options.subgroup_count", "specification_name.name", "stored.filter.line", "stored.filter.measurand", "stored.span.measured_before"],
            faults.Keys.Order(StringComparer.Ordinal));
    }

    // By hand: 2 % in the first row and 4 % in the second, in two lanes; a hand specimen of the same roll has no place.
    [Fact]
    public async Task Roll_OfStoredReadings_IsMapped()
    {
        await using var server = await TestServer.StartAsync();
        var second = 0;
        foreach (var along in new[] { 10.0, 20 })
        {
            foreach (var across in new[] { 100.0, 300 })
            {
                await PostAsync(server, along / 5, second++, identification =>
                {
                    identification.Roll = "R-7";
                    identification.Web = new WebPosition { AcrossMm = across, AlongM = along };
                });
            }
        }

        await PostAsync(server, 8, second, identification => identification.Roll = "R-7");

        var map = (await server.Studies.MapRollAsync(
            new MapRollRequest
            {
                Stored = new StoredSeries { Filter = new SeriesFilter { Measurand = "haze", Roll = "R-7" } },
                Limits = new SeriesLimits { Upper = 3 },
            },
            cancellationToken: Token)).RollMap;

        Assert.Equal((2u, 2u), (map.LaneCount, map.BlockCount));
        Assert.Equal([2.0, 2, 4, 4], map.CellMean.Select(mean => Math.Round(mean, 9)));
        Assert.Equal([100.0, 300], map.Lanes.Select(lane => lane.MiddleMm));
        Assert.Equal((4ul, 1ul, 2ul), (map.ReadingCount, map.UnplacedReadingCount, map.OutsideReadingCount));
        Assert.Equal(VerdictOutcome.NonConformity, map.Outcome);
        Assert.Equal("2 of 4 readings (50 %) lie beyond the limits, 0 % may", map.Reason);
    }

    [Fact]
    public async Task Roll_WithoutPlaces_IsAFailedPrecondition()
    {
        await using var server = await TestServer.StartAsync();
        await PostAsync(server, 2, 0);

        var error = await Rpc.FailsAsync(StatusCode.FailedPrecondition, server.Studies.MapRollAsync(new MapRollRequest { Stored = Film }, cancellationToken: Token));

        Assert.Contains("None of the 1 readings has a place", error.Status.Detail, StringComparison.Ordinal);
    }

    // By hand: specimens 2.0, 2.2 (mean of 2.1 and 2.3) and 2.4 in one lot, 3.0 and 3.2 in the other, so that the means are 2.2 and 3.1.
    [Fact]
    public async Task Lots_OfStoredReadings_CountASpecimenOnce()
    {
        await using var server = await TestServer.StartAsync();
        await PostLotsAsync(server);

        var comparison = Assert.Single((await server.Studies.CompareLotsAsync(
            new CompareLotsRequest { Stored = new StoredLots { Lots = { "L-2", "L-1" }, Measurands = { "haze" }, Product = "clear 25" } },
            cancellationToken: Token)).Comparisons);

        Assert.Equal(["L-2", "L-1"], comparison.Lots.Select(lot => lot.Lot));
        Assert.Equal([2u, 3u], comparison.Lots.Select(lot => lot.SpecimenCount));
        Assert.Equal([2.0, 2.2, 2.4], comparison.Lots[1].Value.Select(value => Math.Round(value, 9)));
        Assert.Equal(3.1 - 2.2, comparison.Pairs[0].Difference, 1e-9);
        Assert.Empty(comparison.Lots[0].AgeingHours);

        // The readings carry their uncertainty: the mean of twice their standard uncertainties.
        var stored = (await server.Readings.ListReadingsAsync(new ListReadingsRequest { Product = "clear 25" }, cancellationToken: Token)).Readings;
        var twice = stored.Select(reading => 2 * reading.Evaluation.Values.Single(value => value.Measurand == "haze").Uncertainty.StandardUncertainty).ToArray();
        Assert.Equal(6, twice.Length);
        Assert.Equal(twice.Average(), comparison.InstrumentExpandedUncertainty, 1e-12);
        Assert.Equal(Math.Sqrt(2) * twice.Average(), comparison.Pairs[0].SmallestTellable, 1e-12);
    }

    [Fact]
    public async Task Lots_StatedUncertainty_OverridesThatOfTheReadings()
    {
        await using var server = await TestServer.StartAsync();
        await PostLotsAsync(server);

        var comparison = (await server.Studies.CompareLotsAsync(
            new CompareLotsRequest
            {
                Stored = new StoredLots { Lots = { "L-1", "L-2" }, Measurands = { "luminous_transmittance", "haze" } },
                Options = new LotComparisonOptions { Margins = { new MeasurandMargin { Measurand = "haze", Margin = 0.5, InstrumentExpandedUncertainty = 0.07 } } },
            },
            cancellationToken: Token)).Comparisons;

        Assert.Equal(["luminous_transmittance", "haze"], comparison.Select(one => one.Measurand));
        Assert.Equal(0.07, comparison[1].InstrumentExpandedUncertainty);
        Assert.Equal(0.5, comparison[1].EquivalenceMargin);
        Assert.False(comparison[0].HasEquivalenceMargin);
    }

    [Fact]
    public async Task Lots_WithoutReadings_AreAFailedPrecondition()
    {
        await using var server = await TestServer.StartAsync();
        await PostLotsAsync(server);
        async Task<string> Fails(StoredLots stored) => (await Rpc.FailsAsync(
            StatusCode.FailedPrecondition, server.Studies.CompareLotsAsync(new CompareLotsRequest { Stored = stored }, cancellationToken: Token))).Status.Detail;

        Assert.Equal("Lot L-3 has no stored reading with haze.", await Fails(new StoredLots { Lots = { "L-1", "L-3" }, Measurands = { "haze" } }));
        Assert.Equal(
            "Lot L-1 has no stored reading with haze. Lot L-2 has no stored reading with haze.",
            await Fails(new StoredLots { Lots = { "L-1", "L-2" }, Measurands = { "haze" }, Line = "line 9" }));
        Assert.Contains(
            "Lot L-2",
            await Fails(new StoredLots
            {
                Lots = { "L-1", "L-2" },
                Measurands = { "haze" },
                Span = new MeasuredSpan { MeasuredBefore = Start.AddSeconds(4).ToTimestamp() },
            }),
            StringComparison.Ordinal);
    }

    [Fact]
    public async Task Lots_OneOnly_IsInvalid()
    {
        await using var server = await TestServer.StartAsync();

        var faults = await Rpc.FaultsAsync(StatusCode.InvalidArgument, server.Studies.CompareLotsAsync(
            new CompareLotsRequest { Stored = new StoredLots { Lots = { "L-1" }, Measurands = { "haze" } } }, cancellationToken: Token));

        Assert.Equal(["stored.lots"], faults.Keys);
    }

    // 17 per lot show one standard deviation with 80 % probability (Cohen 1988, from memory).
    [Fact]
    public async Task Sampling_IsPlanned()
    {
        await using var server = await TestServer.StartAsync();

        var response = await server.Studies.PlanSamplingAsync(
            new PlanSamplingRequest { Difference = new DifferenceSampleSize { StandardDeviation = 1, Difference = 1 } }, cancellationToken: Token);
        var faults = await Rpc.FaultsAsync(StatusCode.InvalidArgument, server.Studies.PlanSamplingAsync(new PlanSamplingRequest(), cancellationToken: Token));

        Assert.Equal(17u, response.SpecimenCount);
        Assert.Equal(["mean"], faults.Keys);
    }

    [Fact]
    public async Task Study_StoreThatCannotBeRead_IsUnavailable()
    {
        await using var server = await TestServer.StartAsync(services =>
        {
            services.AddSingleton<ISeriesStore>(new FailingSeriesStore());
            services.AddSingleton<IReadingStore>(new FailingStore());
        });

        await Rpc.FailsAsync(StatusCode.Unavailable, server.Studies.EstimateCapabilityAsync(
            new EstimateCapabilityRequest { Stored = Film, Limits = new SeriesLimits { Upper = 3 } }, cancellationToken: Token));
        await Rpc.FailsAsync(StatusCode.Unavailable, server.Studies.MapRollAsync(new MapRollRequest { Stored = Film }, cancellationToken: Token));
        await Rpc.FailsAsync(StatusCode.Unavailable, server.Studies.CompareLotsAsync(
            new CompareLotsRequest { Stored = new StoredLots { Lots = { "L-1", "L-2" }, Measurands = { "haze" } } }, cancellationToken: Token));
    }

    private static async Task PostLotsAsync(TestServer server)
    {
        var second = 0;
        foreach (var (lot, specimen, haze) in new[]
        {
            ("L-1", "S-1", 2.0), ("L-1", "S-2", 2.1), ("L-1", "S-3", 2.4), ("L-1", "S-2", 2.3), ("L-2", "S-1", 3.0), ("L-2", "S-2", 3.2),
        })
        {
            await PostAsync(server, haze, second++, identification => (identification.Lot, identification.Specimen) = (lot, specimen));
        }
    }

    // Haze is 100 × diffuse/total, total 90 %.
    private static async Task PostAsync(TestServer server, double haze, int second, Action<Identification>? identify = null)
    {
        var measurement = WireExamples.Normalised(0.9, haze * 0.009);
        measurement.Identification.Product = "clear 25";
        measurement.MeasuredAt = Start.AddSeconds(second).ToTimestamp();
        identify?.Invoke(measurement.Identification);
        var method = WireExamples.Method();
        method.Uncertainty = new UncertaintyInputs { CoveragePercent = 95, HundredLineDriftPercent = 0.2, LinearityPercent = 0.1 };
        await server.Readings.PostReadingAsync(
            new PostReadingRequest { ReadingId = Guid.NewGuid().ToString(), Measurement = measurement, Method = method }, cancellationToken: Token);
    }
}

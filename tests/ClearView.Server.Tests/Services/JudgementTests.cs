using ClearView.Contract.Tests;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Tests.Services;

public sealed class JudgementTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Post_UnderASpecification_StoresItsVerdict_WhichALaterVersionDoesNotChange()
    {
        await using var server = await TestServer.StartAsync();
        await StoreAsync(server, DecisionExamples.Film(3));
        var post = DecisionExamples.Post("film-25");

        var posted = await server.Readings.PostReadingAsync(post, cancellationToken: Token);
        await StoreAsync(server, DecisionExamples.Film(1.5));
        await server.RestartAsync();
        var got = await server.Readings.GetReadingAsync(new GetReadingRequest { ReadingId = post.ReadingId }, cancellationToken: Token);
        var again = await server.Readings.PostReadingAsync(post, cancellationToken: Token);

        var verdict = got.Reading.Verdict;
        Assert.Equal(posted.Reading.Verdict, verdict);
        Assert.Equal(new SpecificationName { Name = "film-25", Version = 1 }, verdict.SpecificationName);
        Assert.Equal(VerdictOutcome.Conformity, verdict.Outcome);
        var limit = Assert.Single(verdict.Limits);
        Assert.Equal(2.0, limit.Value, 9);
        Assert.Equal(1.0, limit.DistanceToLimit, 9);
        Assert.False(limit.HasConformityProbabilityFraction);
        Assert.Contains("haze", limit.Reason, StringComparison.Ordinal);
        Assert.True(again.AlreadyStored);
        Assert.Equal("astm", got.Reading.Evaluation.MethodName.Name);
    }

    [Fact]
    public async Task Post_SameIdUnderAnotherSpecification_IsAConflictThatSaysSo()
    {
        await using var server = await TestServer.StartAsync();
        await StoreAsync(server, DecisionExamples.Film());
        await server.Specifications.StoreSpecificationAsync(DecisionExamples.Store("film-40", DecisionExamples.Film()), cancellationToken: Token);
        await server.Readings.PostReadingAsync(DecisionExamples.Post("film-25"), cancellationToken: Token);

        var faults = await Rpc.FaultsAsync(
            StatusCode.AlreadyExists, server.Readings.PostReadingAsync(DecisionExamples.Post("film-40"), cancellationToken: Token));

        Assert.Equal(["specification_name"], faults.Keys);
    }

    [Fact]
    public async Task Post_UnderASpecificationThatIsNotThere_IsNotFoundAndStoresNothing()
    {
        await using var server = await TestServer.StartAsync();
        var post = DecisionExamples.Post("film-25");

        await Rpc.FailsAsync(StatusCode.NotFound, server.Readings.PostReadingAsync(post, cancellationToken: Token));

        await Rpc.FailsAsync(
            StatusCode.NotFound, server.Readings.GetReadingAsync(new GetReadingRequest { ReadingId = post.ReadingId }, cancellationToken: Token));
    }

    [Fact]
    public async Task Post_OfAnotherProduct_IsNotDecided()
    {
        await using var server = await TestServer.StartAsync();
        await StoreAsync(server, DecisionExamples.Film());
        var post = DecisionExamples.Post("film-25");
        post.Measurement.Identification.Product = "opal 40";

        var verdict = (await server.Readings.PostReadingAsync(post, cancellationToken: Token)).Reading.Verdict;

        Assert.Equal(VerdictOutcome.NotDecided, verdict.Outcome);
        Assert.Contains("opal 40", Assert.Single(verdict.Reasons), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Post_WithAnotherMethodThanTheSpecification_IsNotDecided()
    {
        await using var server = await TestServer.StartAsync();
        await StoreAsync(server, DecisionExamples.Film());
        var post = DecisionExamples.Post("film-25");
        post.MethodName = new MethodName { Name = "iso" };

        var verdict = (await server.Readings.PostReadingAsync(post, cancellationToken: Token)).Reading.Verdict;

        Assert.Equal(VerdictOutcome.NotDecided, verdict.Outcome);
        Assert.Contains("method iso", verdict.Reasons[0], StringComparison.Ordinal);
    }

    // JCGM 106:2012, 7 and 8.3: with U = 2u, a value 1 U inside an upper limit has Φ(2) = 97.72 % probability of conformity
    // (normal distribution, handbook table).
    [Theory]
    [InlineData(3.0, 1.0, VerdictOutcome.Conformity)]
    [InlineData(2.0 + 1e-6, 1.0, VerdictOutcome.NeitherProven)]
    [InlineData(1.0, 1.0, VerdictOutcome.NonConformity)]
    public async Task JudgeSpecimens_GuardBanded_DecidesByTheExpandedUncertainty(double upper, double factor, VerdictOutcome expected)
    {
        await using var server = await TestServer.StartAsync();
        await StoreMethodAsync(server, Uncertain());
        var specification = DecisionExamples.Film(upper);
        specification.MethodName = new MethodName { Name = "house" };
        specification.DecisionRule = new DecisionRule { GuardBand = new GuardBand { Factor = factor } };
        var request = new JudgeSpecimensRequest { Measurements = { WireExamples.Normalised() }, Specification = specification };

        var response = await server.Judgements.JudgeSpecimensAsync(request, cancellationToken: Token);

        var limit = Assert.Single(response.Verdict.Limits);
        Assert.Equal(expected, response.Verdict.Outcome);
        Assert.Equal(2.0, limit.Value, 9);
        Assert.InRange(limit.ExpandedUncertainty, 0.02, 0.5);
        Assert.Equal(limit.DistanceToLimit / limit.ExpandedUncertainty, limit.DistanceInExpandedUncertainties, 9);
        Assert.Equal(expected == VerdictOutcome.NonConformity, !limit.HasConsumersRiskFraction);
        Assert.Equal(expected == VerdictOutcome.Conformity, !limit.HasProducersRiskFraction);
        Assert.Null(response.Verdict.SpecificationName);
        Assert.Equal(1u, response.Specification.MethodName.Version);
    }

    [Fact]
    public async Task JudgeSpecimens_Several_JudgesTheirMeanAndCountsThem()
    {
        await using var server = await TestServer.StartAsync();
        var specification = DecisionExamples.Film(3);
        specification.RequiredSpecimenCount = 3;
        await StoreAsync(server, specification);
        var name = new SpecificationName { Name = "film-25" };
        var three = new JudgeSpecimensRequest
        {
            SpecificationName = name,
            Measurements = { WireExamples.Normalised(0.9, 0.018), WireExamples.Normalised(0.9, 0.027), WireExamples.Normalised(0.9, 0.0306) },
        };
        var two = three.Clone();
        two.Measurements.RemoveAt(2);

        var decided = await server.Judgements.JudgeSpecimensAsync(three, cancellationToken: Token);
        var tooFew = await server.Judgements.JudgeSpecimensAsync(two, cancellationToken: Token);

        // Haze 2.0, 3.0 and 3.4 %: one specimen lies above the limit, their mean 2.8 % below it.
        Assert.Equal(VerdictOutcome.Conformity, decided.Verdict.Outcome);
        Assert.Equal(2.8, decided.Verdict.Limits[0].Value, 9);
        Assert.Equal(3u, decided.Verdict.SpecimenCount);
        Assert.Equal(3, decided.Evaluations.Count);
        Assert.All(decided.Evaluations, evaluation => Assert.Null(evaluation.Spectra));
        Assert.Equal(VerdictOutcome.NotDecided, tooFew.Verdict.Outcome);
        Assert.Contains("3 required", tooFew.Verdict.Reasons[0], StringComparison.Ordinal);
    }

    [Fact]
    public async Task JudgeSpecimens_AgainstAReference_HasAnUncertaintyOfTheDifference()
    {
        await using var server = await TestServer.StartAsync();
        await StoreMethodAsync(server, Uncertain());
        var specification = DecisionExamples.Film();
        specification.MethodName = new MethodName { Name = "house" };
        specification.Limits.Clear();
        specification.Limits.Add(new SpecificationLimit
        {
            Measurand = "delta_e_ab",
            Upper = 5,
            ReferenceColour = new CielabColour { LStar = 90, AStar = 1, BStar = 2 },
        });

        var response = await server.Judgements.JudgeSpecimensAsync(
            new JudgeSpecimensRequest { Measurements = { WireExamples.Normalised() }, Specification = specification }, cancellationToken: Token);

        var values = response.Evaluations[0].Values.ToDictionary(value => value.Measurand, value => value.Value);
        var limit = Assert.Single(response.Verdict.Limits);

        // CIE 15: ΔE*ab is the distance in L*, a*, b*.
        var distance = Math.Sqrt(
            Math.Pow(values["cielab_l"] - 90, 2) + Math.Pow(values["cielab_a"] - 1, 2) + Math.Pow(values["cielab_b"] - 2, 2));
        Assert.Equal(distance, limit.Value, 9);
        Assert.True(limit.ExpandedUncertainty > 0);
    }

    [Fact]
    public async Task JudgeSpecimens_WithoutASpecificationOrMeasurements_NamesTheFields()
    {
        await using var server = await TestServer.StartAsync();

        var none = await Rpc.FaultsAsync(
            StatusCode.InvalidArgument,
            server.Judgements.JudgeSpecimensAsync(new JudgeSpecimensRequest { Measurements = { WireExamples.Normalised() } }, cancellationToken: Token));
        var empty = await Rpc.FaultsAsync(
            StatusCode.InvalidArgument,
            server.Judgements.JudgeSpecimensAsync(new JudgeSpecimensRequest { Specification = DecisionExamples.Film() }, cancellationToken: Token));

        Assert.Equal(["specification_choice"], none.Keys);
        Assert.Equal(["measurements"], empty.Keys);
    }

    [Fact]
    public async Task JudgeReadings_UnderAnotherVersion_ShowsBothVerdicts()
    {
        await using var server = await TestServer.StartAsync();
        await StoreAsync(server, DecisionExamples.Film(3));
        await PostManyAsync(server, 0.009, 0.018, 0.036);
        await StoreAsync(server, DecisionExamples.Film(1.5));

        var now = await JudgeAsync(server, new JudgeReadingsRequest { SpecificationName = new SpecificationName { Name = "film-25" } });
        var then = await JudgeAsync(server, new JudgeReadingsRequest { SpecificationName = new SpecificationName { Name = "film-25", Version = 1 } });

        VerdictOutcome[] stored = [VerdictOutcome.Conformity, VerdictOutcome.Conformity, VerdictOutcome.NonConformity];
        Assert.Equal(stored, now.Select(one => one.StoredVerdict.Outcome));
        Assert.Equal(
            [VerdictOutcome.Conformity, VerdictOutcome.NonConformity, VerdictOutcome.NonConformity], now.Select(one => one.Verdict.Outcome));
        Assert.All(now, one => Assert.Equal(2u, one.Verdict.SpecificationName.Version));
        Assert.All(now, one => Assert.False(one.EvaluatedAgain));
        Assert.Equal(stored, then.Select(one => one.Verdict.Outcome));
        Assert.All(then, one => Assert.Equal(one.StoredVerdict, one.Verdict));
    }

    [Fact]
    public async Task JudgeReadings_StoredUnderAnotherMethod_AreEvaluatedAgainFromTheirScans()
    {
        await using var server = await TestServer.StartAsync();
        await StoreAsync(server, DecisionExamples.Film(3));
        var measurement = WireExamples.Normalised();
        measurement.Identification.Product = "clear 25";
        await server.Readings.PostReadingAsync(
            new PostReadingRequest { ReadingId = Id(1), Measurement = measurement, MethodName = new MethodName { Name = "iso" } },
            cancellationToken: Token);

        var judged = Assert.Single(await JudgeAsync(server, new JudgeReadingsRequest { SpecificationName = new SpecificationName { Name = "film-25" } }));

        Assert.True(judged.EvaluatedAgain);
        Assert.Equal(VerdictOutcome.Conformity, judged.Verdict.Outcome);
        Assert.Null(judged.StoredVerdict);
    }

    [Fact]
    public async Task JudgeReadings_ByRoll_JudgesTheMeanOfEach()
    {
        await using var server = await TestServer.StartAsync();
        var specification = DecisionExamples.Film(3);
        specification.RequiredSpecimenCount = 2;
        await StoreAsync(server, specification);
        await PostManyAsync(server, 0.018, 0.027, 0.036, 0.045, 0.009);

        var judged = await JudgeAsync(
            server,
            new JudgeReadingsRequest { SpecificationName = new SpecificationName { Name = "film-25" }, Group = JudgementGroup.Roll });

        // Rolls of two: haze 2.0 and 3.0, 4.0 and 5.0, and a single 1.0 %.
        Assert.Equal(["R-0", "R-1", "R-2"], judged.Select(one => one.GroupName));
        Assert.Equal(
            [VerdictOutcome.Conformity, VerdictOutcome.NonConformity, VerdictOutcome.NotDecided], judged.Select(one => one.Verdict.Outcome));
        Assert.Equal([2.5, 4.5, 1.0], judged.Select(one => Math.Round(one.Verdict.Limits[0].Value, 9)));
        Assert.Equal([2, 2, 1], judged.Select(one => one.ReadingIds.Count));
        Assert.NotNull(judged[2].StoredVerdict);
        Assert.Null(judged[0].StoredVerdict);
    }

    [Fact]
    public async Task JudgeReadings_AtFault_NamesTheFields()
    {
        await using var server = await TestServer.StartAsync();
        await StoreAsync(server, DecisionExamples.Film());
        var now = Google.Protobuf.WellKnownTypes.Timestamp.FromDateTimeOffset(WireExamples.Clock.GetUtcNow());
        var request = new JudgeReadingsRequest
        {
            SpecificationName = new SpecificationName { Name = "film-25" },
            Line = new string('x', 101),
            Span = new MeasuredSpan { MeasuredFrom = now, MeasuredBefore = now },
            Group = (JudgementGroup)7,
        };

        var error = await Assert.ThrowsAsync<RpcException>(() => JudgeAsync(server, request));

        Assert.Equal(StatusCode.InvalidArgument, error.StatusCode);
        Assert.Equal(
            ["group", "line", "span.measured_before"],
            error.GetRpcStatus()!.GetDetail<Google.Rpc.BadRequest>()!.FieldViolations.Select(one => one.Field).Order(StringComparer.Ordinal));
        await Assert.ThrowsAsync<RpcException>(() => JudgeAsync(server, new JudgeReadingsRequest()));
    }

    private static string Id(int number) => FormattableString.Invariant($"0190d3c4-0000-7000-8000-{number:x12}");

    private static Method Uncertain()
    {
        var method = WireExamples.Method();
        method.Uncertainty = new UncertaintyInputs { RepeatabilityPercent = 0.05, ZeroOffsetPercent = 0.02, CoveragePercent = 95 };
        return method;
    }

    private static async Task StoreMethodAsync(TestServer server, Method method) =>
        await server.Catalogue.StoreMethodAsync(
            new StoreMethodRequest { Name = "house", Description = "house method", Method = method, StoredBy = "M. Arden" }, cancellationToken: Token);

    private static async Task StoreAsync(TestServer server, Specification specification) =>
        await server.Specifications.StoreSpecificationAsync(DecisionExamples.Store("film-25", specification), cancellationToken: Token);

    private static async Task PostManyAsync(TestServer server, params double[] diffuse)
    {
        for (var i = 0; i < diffuse.Length; i++)
        {
            var post = DecisionExamples.Post("film-25", diffuse[i], Id(i + 1));
            post.Measurement.MeasuredAt.Seconds += i - diffuse.Length;
            post.Measurement.Identification.Roll = "R-" + (i / 2);
            await server.Readings.PostReadingAsync(post, cancellationToken: Token);
        }
    }

    private static async Task<List<JudgeReadingsResponse>> JudgeAsync(TestServer server, JudgeReadingsRequest request)
    {
        List<JudgeReadingsResponse> responses = [];
        using var call = server.Judgements.JudgeReadings(request, cancellationToken: Token);
        await foreach (var response in call.ResponseStream.ReadAllAsync(Token))
        {
            responses.Add(response);
        }

        return responses;
    }
}

using ClearView.Contract.Methods;
using ClearView.Contract.Tests;
using ClearView.Records.Model;
using ClearView.V1;

using Grpc.Core;

using Microsoft.Extensions.DependencyInjection;

namespace ClearView.Server.Tests.Services;

public sealed class EvaluateByNameTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public static TheoryData<string> BuiltInNames => [.. BuiltInMethods.All.Select(method => method.Name)];

    [Theory]
    [MemberData(nameof(BuiltInNames))]
    public async Task Evaluate_BuiltInName_GivesWhatTheMethodItselfGives(string name)
    {
        await using var server = await TestServer.StartAsync();

        await IsLikeTheMethodItselfAsync(server, new MethodName { Name = name }, version: 1, BuiltInMethods.Find(name)!.Method);
    }

    [Fact]
    public async Task Evaluate_StoredName_GivesWhatTheMethodItselfGivesInEachVersion()
    {
        await using var server = await TestServer.StartAsync();
        var first = await StoreAsync(server, initialYellowness: 1);
        await IsLikeTheMethodItselfAsync(server, new MethodName { Name = "film-25" }, version: 1, first);
        var second = await StoreAsync(server, initialYellowness: 2);

        await IsLikeTheMethodItselfAsync(server, new MethodName { Name = "film-25" }, version: 2, second);
        await IsLikeTheMethodItselfAsync(server, new MethodName { Name = "film-25", Version = 1 }, version: 1, first);
        await IsLikeTheMethodItselfAsync(server, new MethodName { Name = "film-25", Version = 2 }, version: 2, second);
    }

    [Theory]
    [InlineData("astm", 2, "its newest is 1")]
    [InlineData("film-25", 2, "its newest is 1")]
    [InlineData("film-25", uint.MaxValue, "its newest is 1")]
    public async Task Evaluate_UnknownVersion_IsNotFoundAndNamesTheNewest(string name, uint version, string expected)
    {
        await using var server = await TestServer.StartAsync();
        await StoreAsync(server, 1);

        var error = await Rpc.FailsAsync(StatusCode.NotFound, server.Evaluations.EvaluateAsync(
            new EvaluateRequest { Measurement = WireExamples.Sphere(), MethodName = new MethodName { Name = name, Version = version } },
            cancellationToken: Token));

        Assert.Contains(expected, error.Status.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Evaluate_NameThatIsNone_IsNamedBesideTheOtherFaults()
    {
        await using var server = await TestServer.StartAsync();
        var request = new EvaluateRequest { Measurement = WireExamples.Sphere(), MethodName = new MethodName { Name = "Film 25" } };
        request.Measurement.Conditions.ApertureMm = 0;

        var faults = await Rpc.FaultsAsync(
            StatusCode.InvalidArgument, server.Evaluations.EvaluateAsync(request, cancellationToken: Token));

        Assert.Equal(["measurement.conditions.aperture_mm", "method_name.name"], faults.Keys.Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Evaluate_StoreOfMethodsFails_IsUnavailableForStoredNamesOnly()
    {
        await using var server = await TestServer.StartAsync(services => services.AddKeyedSingleton<IVersionedStore>(VersionedKind.Method, new FailingVersionedStore()));
        var request = new EvaluateRequest { Measurement = WireExamples.Sphere(), MethodName = new MethodName { Name = "film-25" } };

        var error = await Rpc.FailsAsync(StatusCode.Unavailable, server.Evaluations.EvaluateAsync(request, cancellationToken: Token));

        Assert.DoesNotContain("disk", error.Status.Detail, StringComparison.Ordinal);
        request.MethodName = new MethodName { Name = "astm" };
        Assert.NotEmpty((await server.Evaluations.EvaluateAsync(request, cancellationToken: Token)).Evaluation.Values);
    }

    [Fact]
    public async Task EvaluateMany_UnknownNames_AreRefusedAndTheStreamGoesOn()
    {
        await using var server = await TestServer.StartAsync();
        using var call = server.Evaluations.EvaluateMany(cancellationToken: Token);
        MethodName[] names = [new() { Name = "nobody" }, new() { Name = "astm" }, new() { Name = "astm", Version = 9 }, new() { Name = "ASTM" }, new() { Name = "iso" }];
        foreach (var name in names)
        {
            await call.RequestStream.WriteAsync(
                new EvaluateManyRequest { CorrelationId = $"{name.Name} {name.Version}", Measurement = WireExamples.Normalised(), MethodName = name },
                Token);
        }

        await call.RequestStream.CompleteAsync();
        List<EvaluateManyResponse> responses = [];
        await foreach (var response in call.ResponseStream.ReadAllAsync(Token))
        {
            responses.Add(response);
        }

        Assert.Equal(StatusCode.OK, call.GetStatus().StatusCode);
        Assert.Equal(["nobody 0", "astm 0", "astm 9", "ASTM 0", "iso 0"], responses.Select(response => response.CorrelationId));
        var unknown = Assert.Single(responses[0].Refusal.FieldViolations);
        Assert.Equal("method_name", unknown.Field);
        Assert.Contains("\"nobody\"", unknown.Description, StringComparison.Ordinal);
        Assert.Equal(new MethodName { Name = "astm", Version = 1 }, responses[1].Evaluation.MethodName);
        Assert.Equal("method_name", Assert.Single(responses[2].Refusal.FieldViolations).Field);
        Assert.Equal("method_name.name", Assert.Single(responses[3].Refusal.FieldViolations).Field);
        Assert.Equal(new MethodName { Name = "iso", Version = 1 }, responses[4].Evaluation.MethodName);
    }

    [Fact]
    public async Task Post_UnknownName_IsNotFoundAndStoresNothing()
    {
        await using var server = await TestServer.StartAsync();
        var post = Post(new MethodName { Name = "nobody" });

        await Rpc.FailsAsync(StatusCode.NotFound, server.Readings.PostReadingAsync(post, cancellationToken: Token));

        await Rpc.FailsAsync(
            StatusCode.NotFound,
            server.Readings.GetReadingAsync(new GetReadingRequest { ReadingId = post.ReadingId }, cancellationToken: Token));
    }

    [Fact]
    public async Task Post_ByName_KeepsTheMethodThatWasFound()
    {
        await using var server = await TestServer.StartAsync();
        var method = await StoreAsync(server, 1);
        var post = Post(new MethodName { Name = "film-25" });

        await server.Readings.PostReadingAsync(post, cancellationToken: Token);
        await StoreAsync(server, 2);

        var reading = (await server.Readings.GetReadingAsync(new GetReadingRequest { ReadingId = post.ReadingId }, cancellationToken: Token)).Reading;
        Assert.Equal(method, reading.Method);
        Assert.Equal(method, reading.Evaluation.Method);
        Assert.Equal(new MethodName { Name = "film-25", Version = 1 }, reading.Evaluation.MethodName);
    }

    [Fact]
    public async Task Post_ByNameAgain_WithTheStoredVersionIsTheSameAndAnythingElseAConflict()
    {
        await using var server = await TestServer.StartAsync();
        var method = await StoreAsync(server, 1);
        await server.Readings.PostReadingAsync(Post(new MethodName { Name = "film-25" }), cancellationToken: Token);
        await StoreAsync(server, 2);

        var same = await server.Readings.PostReadingAsync(Post(new MethodName { Name = "film-25", Version = 1 }), cancellationToken: Token);

        Assert.True(same.AlreadyStored);
        Assert.Equal(["method_name"], await ConflictAsync(Post(new MethodName { Name = "film-25", Version = 2 })));
        Assert.Equal(["method_name"], await ConflictAsync(Post(new MethodName { Name = "astm" })));
        var itself = Post(null);
        itself.Method = method;
        Assert.Equal(["method_name"], await ConflictAsync(itself));

        async Task<IEnumerable<string>> ConflictAsync(PostReadingRequest other) =>
            (await Rpc.FaultsAsync(StatusCode.AlreadyExists, server.Readings.PostReadingAsync(other, cancellationToken: Token))).Keys;
    }

    private static async Task IsLikeTheMethodItselfAsync(TestServer server, MethodName name, uint version, Method method)
    {
        var measurement = WireExamples.Sphere();
        var itself = (await server.Evaluations.EvaluateAsync(
            new EvaluateRequest { Measurement = measurement, Method = method }, cancellationToken: Token)).Evaluation;

        var byName = (await server.Evaluations.EvaluateAsync(
            new EvaluateRequest { Measurement = measurement, MethodName = name }, cancellationToken: Token)).Evaluation;

        Assert.Null(itself.MethodName);
        Assert.Equal(new MethodName { Name = name.Name, Version = version }, byName.MethodName);
        Assert.Equal(method, byName.Method);
        byName.MethodName = null;
        Assert.Equal(itself, byName);
    }

    private static async Task<Method> StoreAsync(TestServer server, double initialYellowness)
    {
        var method = WireExamples.Method();
        method.InitialYellownessIndex = initialYellowness;
        await server.Catalogue.StoreMethodAsync(
            new StoreMethodRequest { Name = "film-25", Description = "film on line 3", Method = method, StoredBy = "M. Arden" },
            cancellationToken: Token);
        return method;
    }

    private static PostReadingRequest Post(MethodName? name) => new()
    {
        ReadingId = "0198f2a4-7c00-7000-8000-00000000002b",
        Measurement = WireExamples.Sphere(),
        MethodName = name,
    };
}

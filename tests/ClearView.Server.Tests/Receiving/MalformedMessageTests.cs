using System.Collections;

using ClearView.Contract.Tests;
using ClearView.Server.Posting;
using ClearView.Server.Tests.Hosting;
using ClearView.V1;

using Google.Protobuf;
using Google.Protobuf.Reflection;

using Google.Rpc;

using Grpc.Core;
using Grpc.Health.V1;
using Grpc.Reflection.V1Alpha;

using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

using static ClearView.Server.Tests.Services.PostStreamExamples;

namespace ClearView.Server.Tests.Receiving;

/// <summary>Messages whose bytes are none.</summary>
public sealed class MalformedMessageTests
{
    // A field 1 that claims more bytes than there are; a tag that is none; a number that never ends; a group that is never opened.
    private static readonly byte[][] Malformed =
        [[0x0a, 0xff], [0x00], [0x08, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff], [0x0c]];

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task EveryUnaryAndServerStreamingRpc_MalformedMessage_IsInvalidArgumentWithDetails()
    {
        await using var server = await TestServer.StartAsync();
        var invoker = server.Channel.CreateCallInvoker();
        var methods = RawRpc.Methods.Where(method => !method.IsClientStreaming).ToList();
        Assert.True(methods.Count > 25);
        Assert.Contains(methods, method => method.IsServerStreaming);

        foreach (var (method, bytes) in methods.SelectMany(method => Malformed.Select(bytes => (method, bytes))))
        {
            using var unary = method.IsServerStreaming ? null : RawRpc.Unary(invoker, method, bytes, Token);
            using var streaming = method.IsServerStreaming ? RawRpc.ServerStreaming(invoker, method, bytes, Token) : null;
            var error = await Assert.ThrowsAsync<RpcException>(() => (Task?)unary?.ResponseAsync ?? streaming!.ResponseStream.MoveNext(Token));

            Assert.Equal((method.FullName, StatusCode.InvalidArgument), (method.FullName, error.StatusCode));
            var violation = Assert.Single(error.GetRpcStatus()?.GetDetail<BadRequest>()?.FieldViolations ?? []);
            Assert.Equal("message", violation.Field);
            Assert.StartsWith(
                FormattableString.Invariant($"was {bytes.Length} bytes that cannot be read; expected a {method.InputType.Name} in protobuf."),
                violation.Description,
                StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task EveryDuplexRpcOfTheContract_MalformedMessages_AreAnsweredOneByOneWithRefusals()
    {
        await using var server = await TestServer.StartAsync();
        var methods = RawRpc.Methods.Where(method => method.IsClientStreaming).ToList();
        Assert.Contains(methods, method => method.Name == "PostReadings");
        Assert.Contains(methods, method => method.Name == "EvaluateMany");

        foreach (var method in methods)
        {
            Assert.True(method.IsServerStreaming);
            var answers = await RawRpc.RunAsync(server.Channel.CreateCallInvoker(), method, Malformed, Token);

            Assert.Equal((method.FullName, Malformed.Length), (method.FullName, answers.Count));
            Assert.All(answers, answer => Assert.Equal("message", Assert.Single(ViolationsOf(method, answer)).Field));
        }
    }

    [Fact]
    public async Task PostReadings_MalformedBetweenPosts_IsRefusedInItsPlaceAndTheOthersAreStored()
    {
        await using var server = await TestServer.StartAsync();
        var invalid = Post(2, post => post.Measurement.Conditions.Instrument = "");

        var answers = await PostAsync(
            server, Post(1).ToByteArray(), Malformed[0], invalid.ToByteArray(), Malformed[1], Malformed[2], Post(3).ToByteArray());

        Assert.Equal([Id(1), "", Id(2), "", "", Id(3)], answers.Select(answer => answer.ReadingId));
        Assert.NotNull(answers[0].Acknowledgement);
        Assert.NotNull(answers[5].Acknowledgement);
        var refusals = answers[1..5].ConvertAll(answer => answer.Refusal);
        Assert.All(refusals, refusal => Assert.Equal((uint)StatusCode.InvalidArgument, refusal.StatusCode));
        Assert.All(refusals, refusal => Assert.Equal("1 field is at fault", refusal.Message));
        Assert.Equal("was 2 bytes that cannot be read", refusals[0].FieldViolations.Single().Description.Split(';')[0]);
    }

    [Fact]
    public async Task PostReadings_MoreMalformedThanMayBeUnanswered_AreAllAnswered()
    {
        await using var server = await TestServer.StartAsync();
        const int count = 3 * PostStream.MostUnanswered;

        var answers = await PostAsync(server, [.. Enumerable.Range(0, count).Select(i => i % 3 == 0 ? Post(i).ToByteArray() : Malformed[i % 3])]);

        Assert.Equal(
            Enumerable.Range(0, count).Select(i => i % 3 == 0 ? Id(i) : ""),
            answers.Select(answer => answer.ReadingId));
        Assert.Equal(count / 3, answers.Count(answer => answer.Acknowledgement is not null));
    }

    [Fact]
    public async Task PostReadings_TooLargeBetweenPosts_IsRefusedInItsPlaceToo()
    {
        await using var server = await TestServer.StartAsync();
        var tooLarge = Post(2, post => post.Measurement.Scans.Normalised.TotalTransmittance.Add(Enumerable.Repeat(0.5, 600_000)));

        var answers = await PostAsync(server, Post(1).ToByteArray(), tooLarge.ToByteArray(), Malformed[0], Post(3).ToByteArray());

        Assert.Equal([Id(1), Id(2), "", Id(3)], answers.Select(answer => answer.ReadingId));
        Assert.Equal(
            [(uint)StatusCode.ResourceExhausted, (uint)StatusCode.InvalidArgument], answers[1..3].Select(answer => answer.Refusal.StatusCode));
        Assert.Equal(["measurement", "message"], answers[1..3].SelectMany(answer => answer.Refusal.FieldViolations).Select(violation => violation.Field));
    }

    [Fact]
    public async Task EvaluateMany_MalformedBetweenSpecimens_IsRefusedInItsPlaceAndTheOthersAreEvaluated()
    {
        await using var server = await TestServer.StartAsync();
        var request = new EvaluateManyRequest { CorrelationId = "one", Measurement = WireExamples.Normalised(), Method = WireExamples.Method() };
        var method = RawRpc.Methods.Single(method => method.Name == "EvaluateMany");

        var answers = (await RawRpc.RunAsync(server.Channel.CreateCallInvoker(), method, [request.ToByteArray(), Malformed[2], request.ToByteArray()], Token))
            .ConvertAll(EvaluateManyResponse.Parser.ParseFrom);

        Assert.Equal(["one", "", "one"], answers.Select(answer => answer.CorrelationId));
        Assert.Equal([true, false, true], answers.Select(answer => answer.Evaluation is not null));
        Assert.Equal("message", Assert.Single(answers[1].Refusal.FieldViolations).Field);
    }

    [Fact]
    public async Task Log_MalformedMessages_AreOneShortLineEach()
    {
        using var logs = new RecordingLogs();
        await using var server = await TestServer.StartAsync(services => services.AddSingleton<ILoggerProvider>(logs), LogLevel.Information);
        var evaluate = RawRpc.Methods.Single(method => method.Name == "Evaluate");

        using var call = RawRpc.Unary(server.Channel.CreateCallInvoker(), evaluate, Malformed[0], Token);
        await Assert.ThrowsAsync<RpcException>(() => call.ResponseAsync);
        await PostAsync(server, Malformed[0]);
        await server.StopAsync();

        var lines = logs.Lines.Where(line => line.Message.Contains("refused:", StringComparison.Ordinal)).ToList();
        Assert.Equal(
            ["/clearview.v1.EvaluationService/Evaluate", "/clearview.v1.ReadingService/PostReadings"], lines.Select(line => line.Message.Split(' ')[2]));
        Assert.All(lines, line => Assert.InRange(line.Message.Length, 1, 400));
        Assert.All(lines, line => Assert.DoesNotContain('\n', line.Message));
        Assert.All(logs.Lines, line => Assert.Equal((LogLevel.Information, null), (line.Level, line.Error)));
    }

    [Fact]
    public async Task ServicesThatAreNotOurs_AreStillServed_AndRefuseMalformedMessages()
    {
        await using var server = await TestServer.StartAsync();
        Assert.Equal(
            HealthCheckResponse.Types.ServingStatus.Serving,
            (await new Health.HealthClient(server.Channel).CheckAsync(new HealthCheckRequest(), cancellationToken: Token)).Status);
        using var reflection = new ServerReflection.ServerReflectionClient(server.Channel).ServerReflectionInfo(cancellationToken: Token);
        await reflection.RequestStream.WriteAsync(new ServerReflectionRequest { ListServices = "" }, Token);
        Assert.True(await reflection.ResponseStream.MoveNext(Token));
        Assert.Contains("clearview.v1.ReadingService", reflection.ResponseStream.Current.ListServicesResponse.Service.Select(service => service.Name));
        await reflection.RequestStream.CompleteAsync();

        var invoker = server.Channel.CreateCallInvoker();
        using var health = RawRpc.Unary(invoker, HealthReflection.Descriptor.Services[0].FindMethodByName("Check"), Malformed[0], Token);
        var error = await Assert.ThrowsAsync<RpcException>(() => health.ResponseAsync);
        Assert.Equal(StatusCode.InvalidArgument, error.StatusCode);
        error = await Assert.ThrowsAsync<RpcException>(() =>
            RawRpc.RunAsync(invoker, ReflectionReflection.Descriptor.Services[0].FindMethodByName("ServerReflectionInfo"), [Malformed[0]], Token));
        Assert.Equal(StatusCode.InvalidArgument, error.StatusCode);
    }

    private static async Task<List<PostReadingsResponse>> PostAsync(TestServer server, params byte[][] messages)
    {
        var method = RawRpc.Methods.Single(method => method.Name == "PostReadings");
        return (await RawRpc.RunAsync(server.Channel.CreateCallInvoker(), method, messages, Token)).ConvertAll(PostReadingsResponse.Parser.ParseFrom);
    }

    // Every answer of a stream of the contract has a refusal, and every refusal its fields at fault.
    private static IEnumerable<FieldViolation> ViolationsOf(MethodDescriptor method, byte[] answer)
    {
        var message = method.OutputType.Parser.ParseFrom(answer);
        var refusal = Assert.IsType<IMessage>(method.OutputType.FindFieldByName("refusal").Accessor.GetValue(message), exactMatch: false);
        return ((IEnumerable)refusal.Descriptor.FindFieldByName("field_violations").Accessor.GetValue(refusal)).Cast<FieldViolation>();
    }
}

using System.Reflection;

using ClearView.V1;

using Google.Protobuf.Reflection;

using Grpc.Core;

namespace ClearView.Server.Tests.Security;

/// <summary>Walks every rpc of the contract, so that none is open by mistake.</summary>
public sealed class ContractWalkTests
{
    private static readonly Role[] Roles = [Role.Line, Role.Engineer, Role.Lab, Role.Administrator];

    private static readonly Marshaller<byte[]> Bytes = Marshallers.Create(bytes => bytes, bytes => bytes);

    private static IReadOnlyList<MethodDescriptor> Methods { get; } =
    [
        .. typeof(Access).Assembly.GetTypes()
            .Select(type => type.GetProperty("Descriptor", BindingFlags.Public | BindingFlags.Static))
            .Where(property => property?.PropertyType == typeof(FileDescriptor))
            .SelectMany(property => ((FileDescriptor)property!.GetValue(null)!).Services)
            .SelectMany(service => service.Methods),
    ];

    [Fact]
    public void EveryRpc_DeclaresWhoMayCallIt()
    {
        Assert.True(Methods.Count > 25);
        Assert.All(Methods, method => Assert.NotNull(method.GetOptions()?.GetExtension(AccessExtensions.Access)));
        Assert.All(Methods, method => Assert.DoesNotContain(Role.Unspecified, RolesOf(method)));
    }

    [Fact]
    public void WhatChangesForAll_IsNotForLines_AndKeysAreForAdministratorsAlone()
    {
        Assert.All(
            Methods.Where(method => method.Name.StartsWith("Store", StringComparison.Ordinal)),
            method => Assert.DoesNotContain(Role.Line, RolesOf(method)));
        Assert.All(
            Methods.Where(method => method.Service.Name == nameof(AccessService)),
            method => Assert.Empty(RolesOf(method)));
    }

    [Fact]
    public async Task EveryRpc_AsksForAKey_AndLetsInTheRolesThatItDeclaresAlone()
    {
        await using var server = await GuardedServer.StartAsync(configure: options => options with { KeyRequestsPerSecond = 100_000 });
        Dictionary<Role, string> secrets = new() { [Role.Administrator] = server.Administrator };
        foreach (var role in Roles.Except(secrets.Keys))
        {
            var key = await server.CreateAsync("of-" + role.ToString().ToLowerInvariant(), role, role == Role.Line ? ["line 1"] : []);
            secrets[role] = key.Secret;
        }

        foreach (var method in Methods)
        {
            // The limit of failures per address is not what is looked at here.
            server.Clock.Advance(TimeSpan.FromSeconds(20));
            Assert.Equal((method.FullName, StatusCode.Unauthenticated), (method.FullName, (await CallAsync(server, method, null)).StatusCode));
            foreach (var role in Roles)
            {
                var status = await CallAsync(server, method, secrets[role]);
                var isKeptOut = status.StatusCode is StatusCode.Unauthenticated
                    || (status.StatusCode == StatusCode.PermissionDenied && status.Detail.Contains("may not call", StringComparison.Ordinal));
                var mayCall = role == Role.Administrator || RolesOf(method).Contains(role);
                Assert.Equal((method.FullName, role, !mayCall), (method.FullName, role, isKeptOut));
            }
        }
    }

    private static IEnumerable<Role> RolesOf(MethodDescriptor method) => method.GetOptions().GetExtension(AccessExtensions.Access).Roles;

    // Calls with an empty message, whatever the rpc takes.
    private static async Task<Status> CallAsync(GuardedServer server, MethodDescriptor method, string? secret)
    {
        var invoker = server.Server.Channel.CreateCallInvoker();
        using var cancel = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);

        // Who is let in to a stream that has no end is told by the stream not ending.
        var options = new CallOptions(
            secret is null ? [] : GuardedServer.With(secret), DateTime.UtcNow.AddSeconds(method.IsServerStreaming ? 2 : 20), cancel.Token);
        try
        {
            switch (method.IsClientStreaming, method.IsServerStreaming)
            {
                case (false, false):
                    using (var call = invoker.AsyncUnaryCall(ToMethod(method, MethodType.Unary), null, options, []))
                    {
                        await call;
                        return Status.DefaultSuccess;
                    }

                case (false, true):
                    using (var call = invoker.AsyncServerStreamingCall(ToMethod(method, MethodType.ServerStreaming), null, options, []))
                    {
                        await ReadAsync(call.ResponseStream);
                        return Status.DefaultSuccess;
                    }

                default:
                    using (var call = invoker.AsyncDuplexStreamingCall(ToMethod(method, MethodType.DuplexStreaming), null, options))
                    {
                        await call.RequestStream.CompleteAsync();
                        await ReadAsync(call.ResponseStream);
                        return Status.DefaultSuccess;
                    }
            }
        }
        catch (RpcException error)
        {
            return error.Status;
        }
    }

    private static async Task ReadAsync(IAsyncStreamReader<byte[]> answers)
    {
        while (await answers.MoveNext(TestContext.Current.CancellationToken))
        {
        }
    }

    private static Method<byte[], byte[]> ToMethod(MethodDescriptor method, MethodType type) => new(type, method.Service.FullName, method.Name, Bytes, Bytes);
}

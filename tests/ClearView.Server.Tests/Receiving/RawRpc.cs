using System.Reflection;

using ClearView.V1;

using Google.Protobuf.Reflection;

using Grpc.Core;

namespace ClearView.Server.Tests.Receiving;

/// <summary>Calls of the rpcs of the contract with bytes of the test's choice.</summary>
internal static class RawRpc
{
    private static readonly Marshaller<byte[]> Bytes = Marshallers.Create<byte[]>(bytes => bytes, bytes => bytes);

    /// <summary>Every rpc of the contract.</summary>
    public static IReadOnlyList<MethodDescriptor> Methods { get; } =
    [
        .. typeof(Access).Assembly.GetTypes()
            .Select(type => type.GetProperty("Descriptor", BindingFlags.Public | BindingFlags.Static))
            .Where(property => property?.PropertyType == typeof(FileDescriptor))
            .SelectMany(property => ((FileDescriptor)property!.GetValue(null)!).Services)
            .SelectMany(service => service.Methods),
    ];

    /// <summary>A call that sends one message.</summary>
    public static AsyncUnaryCall<byte[]> Unary(CallInvoker invoker, MethodDescriptor method, byte[] message, CancellationToken cancellationToken) =>
        invoker.AsyncUnaryCall(Of(method, MethodType.Unary), null, new CallOptions(cancellationToken: cancellationToken), message);

    /// <summary>A call that sends one message and is answered by a stream.</summary>
    public static AsyncServerStreamingCall<byte[]> ServerStreaming(
        CallInvoker invoker, MethodDescriptor method, byte[] message, CancellationToken cancellationToken) =>
        invoker.AsyncServerStreamingCall(Of(method, MethodType.ServerStreaming), null, new CallOptions(cancellationToken: cancellationToken), message);

    /// <summary>Sends messages over a stream, closes the client's side, and takes every answer until the stream ends with OK.</summary>
    public static async Task<List<byte[]>> RunAsync(
        CallInvoker invoker, MethodDescriptor method, IReadOnlyList<byte[]> messages, CancellationToken cancellationToken)
    {
        using var call = invoker.AsyncDuplexStreamingCall(
            Of(method, MethodType.DuplexStreaming), null, new CallOptions(cancellationToken: cancellationToken));
        var sending = Task.Run(
            async () =>
            {
                foreach (var message in messages)
                {
                    await call.RequestStream.WriteAsync(message, cancellationToken);
                }

                await call.RequestStream.CompleteAsync();
            },
            cancellationToken);
        List<byte[]> answers = [];
        await foreach (var answer in call.ResponseStream.ReadAllAsync(cancellationToken))
        {
            answers.Add(answer);
        }

        await sending;
        return answers;
    }

    private static Grpc.Core.Method<byte[], byte[]> Of(MethodDescriptor method, MethodType type) =>
        new(type, method.Service.FullName, method.Name, Bytes, Bytes);
}

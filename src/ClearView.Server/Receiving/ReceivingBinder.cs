using System.Reflection;

using ClearView.V1;

using Google.Protobuf;

using Grpc.AspNetCore.Server.Model;
using Grpc.Core;

namespace ClearView.Server.Receiving;

/// <summary>Adds the rpcs of a service so that malformed messages reach the interceptors, and then fail, instead of failing before.</summary>
/// <typeparam name="TService">The service.</typeparam>
/// <param name="context">Takes the rpcs.</param>
/// <param name="logger">Is told of malformed messages.</param>
internal sealed class ReceivingBinder<TService>(ServiceMethodProviderContext<TService> context, ILogger logger) : ServiceBinderBase
    where TService : class
{
    public override void AddMethod<TRequest, TResponse>(Method<TRequest, TResponse> method, UnaryServerMethod<TRequest, TResponse>? handler)
    {
        var (serve, metadata) = Find<UnaryServerMethod<TService, TRequest, TResponse>>(method, typeof(TRequest), typeof(ServerCallContext));
        context.AddUnaryMethod(
            Receiving(method), metadata, async (service, request, call) => await serve(service, request.Message, call).ConfigureAwait(false));
    }

    public override void AddMethod<TRequest, TResponse>(
        Method<TRequest, TResponse> method, ServerStreamingServerMethod<TRequest, TResponse>? handler)
    {
        var (serve, metadata) = Find<ServerStreamingServerMethod<TService, TRequest, TResponse>>(
            method, typeof(TRequest), typeof(IServerStreamWriter<TResponse>), typeof(ServerCallContext));
        context.AddServerStreamingMethod(
            Receiving(method),
            metadata,
            async (service, request, responses, call) => await serve(service, request.Message, responses, call).ConfigureAwait(false));
    }

    public override void AddMethod<TRequest, TResponse>(
        Method<TRequest, TResponse> method, ClientStreamingServerMethod<TRequest, TResponse>? handler)
    {
        var (serve, metadata) = Find<ClientStreamingServerMethod<TService, TRequest, TResponse>>(
            method, typeof(IAsyncStreamReader<TRequest>), typeof(ServerCallContext));
        context.AddClientStreamingMethod(
            Receiving(method), metadata, (service, requests, call) => serve(service, new ReceivedReader<TRequest>(requests), call));
    }

    public override void AddMethod<TRequest, TResponse>(
        Method<TRequest, TResponse> method, DuplexStreamingServerMethod<TRequest, TResponse>? handler)
    {
        var (serve, metadata) = Find<DuplexStreamingServerMethod<TService, TRequest, TResponse>>(
            method, typeof(IAsyncStreamReader<TRequest>), typeof(IServerStreamWriter<TResponse>), typeof(ServerCallContext));
        context.AddDuplexStreamingMethod(
            Receiving(method),
            metadata,
            (service, requests, responses, call) => serve(service, new ReceivedReader<TRequest>(requests), responses, call));
    }

    // The method of the service that serves an rpc, and what is declared at both.
    private static (TDelegate Serve, List<object> Metadata) Find<TDelegate>(IMethod rpc, params Type[] parameters)
        where TDelegate : Delegate
    {
        var method = typeof(TService).GetMethod(rpc.Name, BindingFlags.Public | BindingFlags.Instance, parameters)
            ?? throw new InvalidOperationException($"{typeof(TService)} has no method that serves {rpc.FullName}.");
        return (
            method.CreateDelegate<TDelegate>(),
            [.. typeof(TService).GetCustomAttributes(inherit: true), .. method.GetCustomAttributes(inherit: true), new HttpMethodMetadata([HttpMethods.Post])]);
    }

    private Method<Received<TRequest>, TResponse> Receiving<TRequest, TResponse>(Method<TRequest, TResponse> method)
        where TRequest : class
        where TResponse : class
    {
        var read = method.RequestMarshaller.ContextualDeserializer;
        return new Method<Received<TRequest>, TResponse>(
            method.Type,
            method.ServiceName,
            method.Name,
            new Marshaller<Received<TRequest>>(
                static (_, _) => throw new NotSupportedException("A server sends no requests."),
                bytes => Receive(read, bytes, method.FullName)),
            method.ResponseMarshaller);
    }

    private Received<TRequest> Receive<TRequest>(Func<DeserializationContext, TRequest> read, DeserializationContext bytes, string method)
        where TRequest : class
    {
        try
        {
            return new Received<TRequest>(read(bytes));
        }
        catch (InvalidProtocolBufferException error)
        {
            ReceivingLog.Malformed(logger, method, error.Message);
            return new Received<TRequest>(new FieldViolation
            {
                Field = "message",
                Description = FormattableString.Invariant(
                    $"was {bytes.PayloadLength} bytes that cannot be read; expected a {typeof(TRequest).Name} in protobuf. {error.Message}"),
            });
        }
    }
}

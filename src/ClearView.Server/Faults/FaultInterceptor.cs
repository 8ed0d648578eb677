using ClearView.Records.Model;
using ClearView.Server.Mapping;
using ClearView.Server.Receiving;

using Grpc.Core;
using Grpc.Core.Interceptors;

namespace ClearView.Server.Faults;

/// <summary>Turns what goes wrong into a status that gives away nothing of the server's inside; the log has the detail.</summary>
internal sealed class FaultInterceptor(ILogger<FaultInterceptor> logger) : Interceptor
{
    public override async Task<TResponse> UnaryServerHandler<TRequest, TResponse>(
        TRequest request, ServerCallContext context, UnaryServerMethod<TRequest, TResponse> continuation)
    {
        TResponse? response = null;
        await GuardAsync(async () => response = await continuation(request, context).ConfigureAwait(false), context).ConfigureAwait(false);
        return response!;
    }

    public override Task ServerStreamingServerHandler<TRequest, TResponse>(
        TRequest request,
        IServerStreamWriter<TResponse> responseStream,
        ServerCallContext context,
        ServerStreamingServerMethod<TRequest, TResponse> continuation) =>
        GuardAsync(() => continuation(request, responseStream, context), context);

    public override Task DuplexStreamingServerHandler<TRequest, TResponse>(
        IAsyncStreamReader<TRequest> requestStream,
        IServerStreamWriter<TResponse> responseStream,
        ServerCallContext context,
        DuplexStreamingServerMethod<TRequest, TResponse> continuation) =>
        GuardAsync(() => continuation(requestStream, responseStream, context), context);

    private async Task GuardAsync(Func<Task> call, ServerCallContext context)
    {
        try
        {
            await call().ConfigureAwait(false);
        }
        catch (Exception error) when (error is not RpcException)
        {
            throw ToStatus(error, context);
        }
    }

    private RpcException ToStatus(Exception error, ServerCallContext context)
    {
        // A client that went away makes reads and writes fail in several ways; none of them is a fault of the server.
        if (context.CancellationToken.IsCancellationRequested && error is OperationCanceledException or IOException or InvalidOperationException)
        {
            return Status(StatusCode.Cancelled, "The call was cancelled.");
        }

        if (error is DocumentNotFoundException)
        {
            return Status(StatusCode.NotFound, error.Message);
        }

        if (error is MalformedMessageException malformed)
        {
            return FieldFaults.Invalid([malformed.Violation]);
        }

        if (error is StoreUnavailableException)
        {
            FaultLog.StoreUnavailable(logger, error, context.Method);
            return Status(StatusCode.Unavailable, "The store is not available now; trying again is safe.");
        }

        if (error is ObjectDisposedException { ObjectName: nameof(IStore) })
        {
            return Status(StatusCode.Unavailable, "The server is stopping; trying again is safe.");
        }

        var reference = Guid.NewGuid().ToString("N")[..12];
        FaultLog.Unexpected(logger, error, context.Method, reference);
        return Status(StatusCode.Internal, $"Internal error. The server's log has the detail under {reference}.");
    }

    private static RpcException Status(StatusCode code, string detail) => new(new Status(code, detail));
}

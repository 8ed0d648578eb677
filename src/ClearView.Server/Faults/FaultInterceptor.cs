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
            throw FaultStatus.Of(error, context.Method, logger, context.CancellationToken);
        }
    }
}

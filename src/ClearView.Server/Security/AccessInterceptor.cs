using ClearView.Server.Configuration;

using Grpc.Core;
using Grpc.Core.Interceptors;

namespace ClearView.Server.Security;

/// <summary>Lets a call in only where its rpc declares who may call it and the caller is one of them. Bounds the open streams.</summary>
internal sealed class AccessInterceptor(ServerOptions options, Authenticator authenticator, StreamSlots slots, ILogger<AccessInterceptor> logger)
    : Interceptor
{
    public override async Task<TResponse> UnaryServerHandler<TRequest, TResponse>(
        TRequest request, ServerCallContext context, UnaryServerMethod<TRequest, TResponse> continuation)
    {
        Admit(context);
        return await continuation(request, context).ConfigureAwait(false);
    }

    public override async Task<TResponse> ClientStreamingServerHandler<TRequest, TResponse>(
        IAsyncStreamReader<TRequest> requestStream, ServerCallContext context, ClientStreamingServerMethod<TRequest, TResponse> continuation)
    {
        var caller = Admit(context);
        using var slot = TakeSlot(caller, context);
        return await continuation(Checked(requestStream, caller), context).ConfigureAwait(false);
    }

    public override async Task ServerStreamingServerHandler<TRequest, TResponse>(
        TRequest request,
        IServerStreamWriter<TResponse> responseStream,
        ServerCallContext context,
        ServerStreamingServerMethod<TRequest, TResponse> continuation)
    {
        var caller = Admit(context);
        using var slot = TakeSlot(caller, context);
        await continuation(request, Checked(responseStream, caller), context).ConfigureAwait(false);
    }

    public override async Task DuplexStreamingServerHandler<TRequest, TResponse>(
        IAsyncStreamReader<TRequest> requestStream,
        IServerStreamWriter<TResponse> responseStream,
        ServerCallContext context,
        DuplexStreamingServerMethod<TRequest, TResponse> continuation)
    {
        var caller = Admit(context);
        using var slot = TakeSlot(caller, context);

        // Answers to what was let in are still sent; nothing further is taken.
        await continuation(Checked(requestStream, caller), responseStream, context).ConfigureAwait(false);
    }

    // The caller; null where the rpc is open to everybody who has no key.
    private Caller? Admit(ServerCallContext context)
    {
        if (RpcRules.IsOpen(context.Method))
        {
            return null;
        }

        var caller = Caller.Of(context);
        if (!RpcRules.Allows(context.Method, caller.Role))
        {
            SecurityLog.NotAllowed(logger, context.Method, caller.Name, caller.Role);
            throw new RpcException(new Status(
                StatusCode.PermissionDenied, $"The key {caller.Name} has the role {RoleNames.Of(caller.Role)}, which may not call {context.Method}."));
        }

        return caller;
    }

    private IDisposable TakeSlot(Caller? caller, ServerCallContext context) => slots.Take(
        StreamSlots.KindOf(context.Method), caller?.Name ?? "address " + Authenticator.AddressOf(context.GetHttpContext()), options.Access == AccessMode.Keys);

    private IAsyncStreamReader<T> Checked<T>(IAsyncStreamReader<T> reader, Caller? caller) =>
        IsChecked(caller) ? new CheckedReader<T>(reader, authenticator, caller!) : reader;

    private IServerStreamWriter<T> Checked<T>(IServerStreamWriter<T> writer, Caller? caller) =>
        IsChecked(caller) ? new CheckedWriter<T>(writer, authenticator, caller!) : writer;

    private static bool IsChecked(Caller? caller) => caller is not null && !ReferenceEquals(caller, Caller.Everybody);
}

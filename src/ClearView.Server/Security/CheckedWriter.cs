using Grpc.Core;

namespace ClearView.Server.Security;

/// <summary>Writes a stream as long as the key of its caller opens.</summary>
internal sealed class CheckedWriter<T>(IServerStreamWriter<T> writer, Authenticator authenticator, Caller caller) : IServerStreamWriter<T>
{
    public WriteOptions? WriteOptions
    {
        get => writer.WriteOptions;
        set => writer.WriteOptions = value;
    }

    public Task WriteAsync(T message) => WriteAsync(message, CancellationToken.None);

    public async Task WriteAsync(T message, CancellationToken cancellationToken)
    {
        await authenticator.RecheckAsync(caller, cancellationToken).ConfigureAwait(false);
        await writer.WriteAsync(message, cancellationToken).ConfigureAwait(false);
    }
}

using Grpc.Core;

namespace ClearView.Server.Security;

/// <summary>Reads a stream as long as the key of its caller opens.</summary>
internal sealed class CheckedReader<T>(IAsyncStreamReader<T> reader, Authenticator authenticator, Caller caller) : IAsyncStreamReader<T>
{
    public T Current => reader.Current;

    public async Task<bool> MoveNext(CancellationToken cancellationToken)
    {
        if (!await reader.MoveNext(cancellationToken).ConfigureAwait(false))
        {
            return false;
        }

        await authenticator.RecheckAsync(caller, cancellationToken).ConfigureAwait(false);
        return true;
    }
}

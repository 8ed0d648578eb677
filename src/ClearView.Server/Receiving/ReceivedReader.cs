using Grpc.Core;

namespace ClearView.Server.Receiving;

/// <summary>Reads the messages of a stream. One that is malformed throws in its place, and the stream can be read on behind it.</summary>
/// <typeparam name="T">Type of the messages.</typeparam>
internal sealed class ReceivedReader<T>(IAsyncStreamReader<Received<T>> reader) : IAsyncStreamReader<T>
    where T : class
{
    private T? _current;

    public T Current => _current ?? throw new InvalidOperationException("There is no message before the first read, or at a malformed one.");

    /// <summary>Reads the next message.</summary>
    /// <exception cref="MalformedMessageException">It is none; the one behind it can be read.</exception>
    public async Task<bool> MoveNext(CancellationToken cancellationToken)
    {
        _current = null;
        if (!await reader.MoveNext(cancellationToken).ConfigureAwait(false))
        {
            return false;
        }

        _current = reader.Current.Message;
        return true;
    }
}

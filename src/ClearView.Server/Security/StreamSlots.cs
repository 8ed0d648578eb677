using ClearView.Server.Configuration;

using Grpc.Core;

namespace ClearView.Server.Security;

/// <summary>How many streams are open, of each caller and of all.</summary>
internal sealed class StreamSlots(ServerOptions options)
{
    /// <summary>Most open streams of all callers together.</summary>
    public const int MostOfAll = 2000;

    private readonly Lock _lock = new();
    private readonly Dictionary<string, int> _byCaller = new(StringComparer.Ordinal);
    private int _all;

    /// <summary>Takes a place for a stream; disposing gives it back.</summary>
    /// <param name="caller">Name of the caller.</param>
    /// <param name="isLimited">Whether the caller's own number counts, besides that of all.</param>
    /// <exception cref="RpcException">RESOURCE_EXHAUSTED: there are too many.</exception>
    public IDisposable Take(string caller, bool isLimited)
    {
        lock (_lock)
        {
            var own = _byCaller.GetValueOrDefault(caller);
            if ((isLimited && own >= options.KeyStreams) || _all >= MostOfAll)
            {
                var whose = isLimited && own >= options.KeyStreams ? $"{options.KeyStreams} of this caller" : $"{MostOfAll} of this server";
                throw new RpcException(new Status(StatusCode.ResourceExhausted, $"All streams are open that may be, {whose}; end one first."));
            }

            _byCaller[caller] = own + 1;
            _all++;
        }

        return new Slot(this, caller);
    }

    private void Return(string caller)
    {
        lock (_lock)
        {
            _all--;
            if (--_byCaller[caller] == 0)
            {
                _byCaller.Remove(caller);
            }
        }
    }

    private sealed class Slot(StreamSlots slots, string caller) : IDisposable
    {
        public void Dispose() => slots.Return(caller);
    }
}

using ClearView.Server.Configuration;

using Grpc.Core;

namespace ClearView.Server.Security;

/// <summary>How many streams are open, of each caller and of all; of each kind by itself.</summary>
internal sealed class StreamSlots(ServerOptions options)
{
    /// <summary>Most open streams of a kind, of all callers together.</summary>
    public const int MostOfAll = 2000;

    /// <summary>Most open streams of all callers together that watch the health of the server.</summary>
    public const int MostOfHealth = 200;

    private const string WatchReadings = "/clearview.v1.ReadingService/WatchReadings";

    private readonly Pool _work = new(MostOfAll, "streams");
    private readonly Pool _watches = new(MostOfAll, "watches of readings");
    private readonly Pool _health = new(MostOfHealth, "watches of the server's health");

    /// <summary>What a stream is for.</summary>
    /// <param name="method">Full name of its rpc.</param>
    public static StreamKind KindOf(string method) => method switch
    {
        WatchReadings => StreamKind.Watch,
        _ when RpcRules.IsOpen(method) => StreamKind.Health,
        _ => StreamKind.Work,
    };

    /// <summary>Takes a place for a stream; disposing gives it back.</summary>
    /// <param name="kind">What it is for.</param>
    /// <param name="caller">Name of the caller.</param>
    /// <param name="isLimited">Whether the caller's own number counts, besides that of all.</param>
    /// <exception cref="RpcException">RESOURCE_EXHAUSTED: there are too many.</exception>
    public IDisposable Take(StreamKind kind, string caller, bool isLimited)
    {
        var pool = kind switch
        {
            StreamKind.Watch => _watches,
            StreamKind.Health => _health,
            _ => _work,
        };
        return pool.Take(caller, isLimited ? options.KeyStreams : int.MaxValue);
    }

    private sealed class Pool(int mostOfAll, string what)
    {
        private readonly Lock _lock = new();
        private readonly Dictionary<string, int> _byCaller = new(StringComparer.Ordinal);
        private int _all;

        public Slot Take(string caller, int mostOfCaller)
        {
            lock (_lock)
            {
                var own = _byCaller.GetValueOrDefault(caller);
                if (own >= mostOfCaller || _all >= mostOfAll)
                {
                    var whose = own >= mostOfCaller ? $"{mostOfCaller} of this caller" : $"{mostOfAll} of this server";
                    throw new RpcException(new Status(StatusCode.ResourceExhausted, $"All {what} are open that may be, {whose}; end one first."));
                }

                _byCaller[caller] = own + 1;
                _all++;
            }

            return new Slot(this, caller);
        }

        public void Return(string caller)
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
    }

    private sealed class Slot(Pool pool, string caller) : IDisposable
    {
        public void Dispose() => pool.Return(caller);
    }
}

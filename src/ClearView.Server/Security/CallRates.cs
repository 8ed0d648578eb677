using System.Collections.Concurrent;

using ClearView.Server.Configuration;

namespace ClearView.Server.Security;

/// <summary>How often each key may call, and each address may fail to identify itself.</summary>
/// <remarks>Who has a key that opens is never held up by others at its address that have none: only failures are counted by address.</remarks>
internal sealed class CallRates(ServerOptions options, TimeProvider clock)
{
    private const double FailuresPerSecond = 1;
    private const double FailureBurst = 10;

    // Addresses come from outside and their number has no bound; memory has.
    private const int MostAddresses = 10_000;

    // What has rested is looked for this often at most: a walk over all of them with each call would be the caller's weapon.
    private static readonly TimeSpan SweepEvery = TimeSpan.FromSeconds(1);

    private readonly ConcurrentDictionary<string, TokenBucket> _keys = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<string, TokenBucket> _addresses = new(StringComparer.Ordinal);
    private readonly TokenBucket _otherAddresses = new(clock, FailuresPerSecond, FailureBurst);
    private int _addressCount;
    private long _sweptAt = clock.GetTimestamp() - clock.TimestampFrequency;

    /// <summary>Counts a call of a key.</summary>
    /// <param name="key">Name of the key.</param>
    /// <param name="wait">When to try again, where it is too often.</param>
    public bool TryCall(string key, out TimeSpan wait) =>
        _keys.GetOrAdd(key, _ => new TokenBucket(clock, options.KeyRequestsPerSecond, 2.0 * options.KeyRequestsPerSecond)).TryTake(out wait);

    /// <summary>Counts a failure of an address.</summary>
    /// <param name="address">The address.</param>
    /// <param name="wait">When to try again, where it is too often.</param>
    public bool TryFail(string address, out TimeSpan wait) => BucketOf(address).TryTake(out wait);

    private TokenBucket BucketOf(string address)
    {
        if (_addresses.TryGetValue(address, out var known))
        {
            return known;
        }

        // Counted here: the dictionary's own count takes all of its locks. Calls at once may exceed the bound by as many.
        if (Volatile.Read(ref _addressCount) >= MostAddresses)
        {
            Sweep();
            if (Volatile.Read(ref _addressCount) >= MostAddresses)
            {
                return _otherAddresses;
            }
        }

        var fresh = new TokenBucket(clock, FailuresPerSecond, FailureBurst);
        if (!_addresses.TryAdd(address, fresh))
        {
            return _addresses.GetValueOrDefault(address, fresh);
        }

        Interlocked.Increment(ref _addressCount);
        return fresh;
    }

    private void Sweep()
    {
        var sweptAt = Volatile.Read(ref _sweptAt);
        var now = clock.GetTimestamp();
        if (clock.GetElapsedTime(sweptAt, now) < SweepEvery || Interlocked.CompareExchange(ref _sweptAt, now, sweptAt) != sweptAt)
        {
            return;
        }

        foreach (var (rested, _) in _addresses.Where(pair => pair.Value.IsFull))
        {
            if (_addresses.TryRemove(rested, out _))
            {
                Interlocked.Decrement(ref _addressCount);
            }
        }
    }
}

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

    private readonly ConcurrentDictionary<string, TokenBucket> _keys = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<string, TokenBucket> _addresses = new(StringComparer.Ordinal);
    private readonly TokenBucket _otherAddresses = new(clock, FailuresPerSecond, FailureBurst);

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
        if (_addresses.Count >= MostAddresses && !_addresses.ContainsKey(address))
        {
            foreach (var (rested, _) in _addresses.Where(pair => pair.Value.IsFull))
            {
                _addresses.TryRemove(rested, out _);
            }

            if (_addresses.Count >= MostAddresses)
            {
                return _otherAddresses;
            }
        }

        return _addresses.GetOrAdd(address, _ => new TokenBucket(clock, FailuresPerSecond, FailureBurst));
    }
}

using System.Collections.Concurrent;

using ClearView.Client;
using ClearView.V1;

namespace ClearView.EndToEnd.Tests.Lines;

/// <summary>A production line that posts one reading after the other until it is told to stop; any failed call is kept.</summary>
internal sealed class Line(string name, int seed)
{
    private readonly ReadingMaker _readings = new(name, seed);
    private int _acknowledgedCount;

    /// <summary>What was acknowledged, in the order of posting.</summary>
    public List<PostReadingRequest> Acknowledged { get; } = [];

    /// <summary>Calls that failed in spite of the client's repeats.</summary>
    public ConcurrentQueue<ClearViewCallException> Failures { get; } = [];

    /// <summary>How many were acknowledged so far; safe to ask while the line posts.</summary>
    public int AcknowledgedCount => Volatile.Read(ref _acknowledgedCount);

    /// <summary>Posts; a reading that could not be posted is posted again until it is acknowledged, as an outbox would.</summary>
    /// <param name="client">The client.</param>
    /// <param name="stop">Ends the posting between two readings.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public async Task PostAsync(ClearViewClient client, CancellationToken stop, CancellationToken cancellationToken)
    {
        while (!stop.IsCancellationRequested)
        {
            var reading = _readings.Next();
            while (!await TryPostAsync(client, reading, cancellationToken))
            {
            }

            Acknowledged.Add(reading);
            Interlocked.Increment(ref _acknowledgedCount);
        }
    }

    private async Task<bool> TryPostAsync(ClearViewClient client, PostReadingRequest reading, CancellationToken cancellationToken)
    {
        try
        {
            await client.PostAsync(reading, cancellationToken);
            return true;
        }
        catch (ClearViewCallException failure)
        {
            Failures.Enqueue(failure);
            await Task.Delay(50, cancellationToken);
            return false;
        }
    }
}

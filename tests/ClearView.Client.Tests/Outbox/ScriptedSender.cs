using ClearView.Client.Outbox;
using ClearView.V1;

namespace ClearView.Client.Tests.Outbox;

/// <summary>A server that fails at random, from a seed, before or after it has stored a reading.</summary>
internal sealed class ScriptedSender(int seed, double failures) : IReadingSender
{
    private readonly object _gate = new();
    private readonly Random _random = new(seed);
    private readonly HashSet<string> _ids = [];

    /// <summary>Stored readings, in the order of storing, each once.</summary>
    public List<PostReadingRequest> Stored { get; } = [];

    /// <summary>Identifiers that are refused for good.</summary>
    public HashSet<string> Refused { get; } = [];

    public Task<IReadOnlyList<SendResult>> SendAsync(IReadOnlyList<PostReadingRequest> readings, CancellationToken cancellationToken)
    {
        List<SendResult> results = [];
        lock (_gate)
        {
            foreach (var reading in readings)
            {
                if (Refused.Contains(reading.ReadingId))
                {
                    results.Add(new SendResult(OutboxEventKind.Refused, "scans: was missing."));
                    continue;
                }
                var fails = _random.NextDouble() < failures;
                if (fails && _random.Next(2) == 0)
                {
                    results.Add(new SendResult(OutboxEventKind.Waiting, "unavailable"));
                    break;
                }
                var isNew = _ids.Add(reading.ReadingId);
                if (isNew)
                {
                    Stored.Add(reading);
                }
                if (fails)
                {
                    // Stored, but the answer is lost.
                    results.Add(new SendResult(OutboxEventKind.Waiting, "deadline"));
                    break;
                }
                results.Add(new SendResult(isNew ? OutboxEventKind.Stored : OutboxEventKind.AlreadyStored));
            }
        }
        return Task.FromResult<IReadOnlyList<SendResult>>(results);
    }
}

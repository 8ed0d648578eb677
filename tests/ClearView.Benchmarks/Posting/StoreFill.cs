using ClearView.Contract;
using ClearView.Records.Model;
using ClearView.Server.Mapping;

namespace ClearView.Benchmarks.Posting;

/// <summary>Fills a store with a year of hazemeter readings of ten lines, evaluated as the server does and written by its own writer.</summary>
/// <param name="size">The number of readings.</param>
internal sealed class StoreFill(int size)
{
    /// <summary>Room that a reading of a hazemeter may take in a store with its indexes and logs, bytes; measured and rounded up.</summary>
    public const long MostBytesPerReading = 4000;

    /// <summary>Lines.</summary>
    public const int Lines = 10;

    /// <summary>Readings of a lot.</summary>
    public const int LotSize = 500;

    // What waits for the writer is bounded; it takes so many in a few groups.
    private const int MostUnwritten = 4096;

    private readonly List<Guid> _some = [];

    /// <summary>Time of measurement of the first reading.</summary>
    public DateTimeOffset Start { get; } = new(DateTime.UtcNow.Date.AddDays(-366), TimeSpan.Zero);

    /// <summary>Identifiers of some readings, spread over all of them.</summary>
    public IReadOnlyList<Guid> Some => _some;

    /// <summary>The line of a reading, by its number.</summary>
    public static string Line(int number) => FormattableString.Invariant($"line {number % Lines}");

    /// <summary>The lot of a reading, by its number; a lot is of one line.</summary>
    public static string Lot(int number) => FormattableString.Invariant($"L-{number % Lines}-{number / Lines / LotSize}");

    /// <summary>Time of measurement of a reading, by its number.</summary>
    public DateTimeOffset MeasuredAt(int number) => Start + (TimeSpan.FromDays(365) / size * number);

    /// <summary>Fills the store.</summary>
    public async Task RunAsync(IReadingStore store)
    {
        var method = MethodChoice.Given(PostedHazemeter.Method);
        var every = Math.Max(1, size / 50);
        Queue<Task> unwritten = new();
        for (var i = 0; i < size; i++)
        {
            var measurement = PostedHazemeter.Measurement(i, MeasuredAt(i), Line(i), Lot(i));
            var outcome = MeasurementEvaluator.Evaluate(measurement, method, TimeProvider.System);
            var id = Guid.CreateVersion7(MeasuredAt(i));
            if (i % every == 0)
            {
                _some.Add(id);
            }

            unwritten.Enqueue(store.AppendAsync(ReadingMapper.ToEntry(id, measurement, method.Method!, outcome.Evaluation!, verdict: null), CancellationToken.None));
            if (unwritten.Count == MostUnwritten)
            {
                await unwritten.Dequeue();
            }
        }

        await Task.WhenAll(unwritten);
    }
}

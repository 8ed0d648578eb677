using System.Runtime.CompilerServices;

using ClearView.Records.Model;

namespace ClearView.Server.Services;

/// <summary>Every stored reading of a query, a page in memory at a time.</summary>
internal static class StoredReadings
{
    private const int PageSize = 200;
    private const long PageBytes = 16_000_000;

    /// <summary>Reads them in the order of the query, without those that a correction took the place of.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    public static IAsyncEnumerable<StoredReading> ReadAllAsync(
        this IReadingStore store, ReadingQuery query, CancellationToken cancellationToken) =>
        store.ReadEveryAsync(query, cancellationToken).Where(reading => reading.SupersededBy is null);

    /// <summary>Reads them in the order of the query, those that are superseded too.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    public static async IAsyncEnumerable<StoredReading> ReadEveryAsync(
        this IReadingStore store, ReadingQuery query, [EnumeratorCancellation] CancellationToken cancellationToken)
    {
        var next = query with { PageSize = PageSize, MaxPayloadBytes = PageBytes };
        while (true)
        {
            var page = await store.ListAsync(next, cancellationToken).ConfigureAwait(false);
            foreach (var reading in page.Readings)
            {
                yield return reading;
            }

            if (!page.HasMore)
            {
                yield break;
            }

            var last = page.Readings[^1].Entry;
            next = next with { After = new ReadingPosition(last.MeasuredAt, last.Id) };
        }
    }
}

using ClearView.Records.Model;
using ClearView.Server.Mapping;
using ClearView.V1;

using Google.Protobuf;

namespace ClearView.Server.Live;

/// <summary>Readings that a server stored and ended before their signals were: held against the charts when the next one starts.</summary>
internal sealed class LeftReadings(IRecordedStore recorded, LiveCharts charts, ILogger<LeftReadings> logger)
{
    /// <summary>Settles them. A failure of the store is logged, and leaves the rest to a later start.</summary>
    /// <param name="cancellationToken">Stops between two readings.</param>
    public async Task SettleAsync(CancellationToken cancellationToken)
    {
        var (count, raising) = (0, 0);
        try
        {
            foreach (var sequence in await recorded.ListLeftAsync(cancellationToken).ConfigureAwait(false))
            {
                var page = await recorded.ListAsync(new RecordedQuery { After = sequence - 1, PageSize = 1 }, cancellationToken).ConfigureAwait(false);
                if (page.Readings is not [var reading] || reading.Sequence != sequence)
                {
                    // Retired with its month.
                    continue;
                }

                // What has its signals, or stands on no chart any more, needs no look.
                List<RaisedSignal> raised = [];
                if (!reading.Signals.IsEmpty || reading.SupersededBy is not null)
                {
                    await recorded.SettleAsync(reading, ReadingMapper.ToBytes(raised)).ConfigureAwait(false);
                }
                else if (await TryCheckAsync(reading, raised).ConfigureAwait(false))
                {
                    await recorded.SettleAsync(reading, ReadingMapper.ToBytes(raised)).ConfigureAwait(false);
                    count++;
                    raising += raised.Count > 0 ? 1 : 0;
                }
            }
        }
        catch (StoreUnavailableException error)
        {
            LiveLog.LeftNotSettled(logger, error);
        }

        if (count > 0)
        {
            LiveLog.LeftSettled(logger, count, raising);
        }
    }

    // One that is damaged stays as it is, for a verification to find, and does not keep the server from starting.
    private async Task<bool> TryCheckAsync(StoredReading reading, List<RaisedSignal> raised)
    {
        try
        {
            var values = ReadingMapper.ValuesOf(Evaluation.Parser.ParseFrom(reading.Entry.Evaluation.Span));
            return await charts.TryCheckAsync(reading.Entry with { Values = values }, reading.Sequence, isLeft: true, raised).ConfigureAwait(false);
        }
        catch (InvalidProtocolBufferException error)
        {
            LiveLog.LeftUnreadable(logger, error, reading.Entry.Id);
            return false;
        }
    }
}

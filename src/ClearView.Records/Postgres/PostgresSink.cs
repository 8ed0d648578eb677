using ClearView.Records.Audit;
using ClearView.Records.Exchange;
using ClearView.Records.Model;
using ClearView.Records.Sql;

using Npgsql;

namespace ClearView.Records.Postgres;

/// <summary>Takes rows into a database, within the transaction of its connection.</summary>
internal sealed class PostgresSink(NpgsqlConnection connection, NpgsqlTransaction transaction, IStoreDatabase database) : IRowSink
{
    private readonly MonthPartitions _months = new(connection);
    private readonly LabelCodes _codes = new(connection);
    private readonly RowCopy _copy = new(connection);
    private readonly AwaitedRows _awaited = new(connection);

    /// <inheritdoc/>
    public void AddReadings(IReadOnlyList<StoredReading> readings)
    {
        _months.EnsureAsync(readings.Select(reading => reading.Entry.MeasuredAt)).GetAwaiter().GetResult();
        _copy.IdentifiersAsync(readings).GetAwaiter().GetResult();
        _copy.ReadingsAsync(readings).GetAwaiter().GetResult();
        foreach (var reading in readings.Where(reading => !reading.Signals.IsEmpty))
        {
            SignalRows.Insert(connection, transaction, reading.Entry.Line, reading.Sequence, reading.Signals.ToArray());
        }

        foreach (var reading in readings.Where(reading => reading.Entry.Corrects is not null))
        {
            CorrectionRows.Insert(connection, transaction, database, reading);
        }
    }

    /// <inheritdoc/>
    public void AddAwaited(IReadOnlyList<(string Line, long Sequence)> readings) => _awaited.AddAsync(readings).GetAwaiter().GetResult();

    /// <inheritdoc/>
    public void AddValues(IReadOnlyList<SeriesValue> values)
    {
        _months.EnsureAsync(values.Select(value => new DateTimeOffset(value.MeasuredAtTicks, TimeSpan.Zero))).GetAwaiter().GetResult();
        _codes.EnsureAsync(values.SelectMany(value => new[] { value.Line, value.Measurand, value.Product, value.Lot, value.Roll, value.Instrument }))
            .GetAwaiter().GetResult();
        _copy.ValuesAsync(values, _codes).GetAwaiter().GetResult();
    }

    /// <inheritdoc/>
    public void AddVersion(VersionedKind kind, StoredVersion version) => VersionRows.Insert(connection, transaction, kind, version);

    /// <inheritdoc/>
    public void AddPicture(string line, long sequence, byte[] picture) => PictureRows.Insert(connection, transaction, line, sequence, picture);

    /// <inheritdoc/>
    public void AddLinks(IReadOnlyList<Link> rows) => _copy.LinksAsync(rows).GetAwaiter().GetResult();

    /// <summary>Lets the next reading follow those that were taken.</summary>
    public void ContinueSequence()
    {
        using var command = new NpgsqlCommand("SELECT setval('reading_sequence', max(sequence)) FROM reading_id HAVING count(*) > 0", connection);
        command.ExecuteNonQuery();
    }
}

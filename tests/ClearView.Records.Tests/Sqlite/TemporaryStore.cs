using System.Collections.Immutable;

using ClearView.Records.Model;
using ClearView.Records.Sqlite;

using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Time.Testing;

namespace ClearView.Records.Tests.Sqlite;

/// <summary>A store on a file of its own that goes away with the test.</summary>
internal sealed class TemporaryStore : IAsyncDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-records-");
    private SqliteStore? _store;

    public static DateTimeOffset Noon { get; } = new(2026, 3, 2, 12, 0, 0, TimeSpan.Zero);

    public FakeTimeProvider Clock { get; } = new(Noon);

    public string File => Path.Combine(_folder.FullName, "readings.db");

    public IReadingStore Store => Opened.Readings;

    public IVersionedStore Methods => Opened.Methods;

    public SqliteStore Opened => _store ??= SqliteStore.Open(File, Clock);

    public static ReadingEntry Entry(int number, Func<ReadingEntry, ReadingEntry>? change = null)
    {
        var entry = new ReadingEntry
        {
            Id = Id(number),
            MeasuredAt = Noon.AddSeconds(number),
            Line = "line 1",
            Product = "clear 25",
            Lot = "L-7",
            Roll = "R-" + number / 10,
            Specimen = "S-" + number,
            Instrument = "sphere A",
            AcrossMm = 100 * (number % 5),
            AlongM = number / 2.0,
            Verdict = number % 2 == 0 ? [] : new byte[] { 5, (byte)number },
            Measurement = new byte[] { 1, 2, (byte)number },
            Method = new byte[] { 3 },
            Evaluation = new byte[] { 4, (byte)number },
            SoftwareVersion = "0.1.0",
            Values = [new MeasurandValue("haze", number / 100.0), new MeasurandValue("total_transmittance", 91.5)],
        };
        return change is null ? entry : change(entry);
    }

    public static Guid Id(int number) => new(number + 1, 0, 0, new byte[8]);

    public async Task<IReadingStore> ReopenAsync(ImmutableArray<Migration>? migrations = null)
    {
        await CloseAsync();
        _store = SqliteStore.Open(File, Clock, migrations ?? Migration.All);
        return _store.Readings;
    }

    public async Task CloseAsync()
    {
        if (_store is not null)
        {
            await _store.DisposeAsync();
            _store = null;
        }
    }

    public SqliteConnection Connect()
    {
        var connection = new SqliteConnection($"Data Source={File};Pooling=False");
        connection.Open();
        return connection;
    }

    public object? Scalar(string sql)
    {
        using var connection = Connect();
        using var command = connection.CreateCommand();
#pragma warning disable CA2100 // Statements are constants of the tests.
        command.CommandText = sql;
#pragma warning restore CA2100
        return command.ExecuteScalar();
    }

    public async ValueTask DisposeAsync()
    {
        await CloseAsync();
        _folder.Delete(recursive: true);
    }
}

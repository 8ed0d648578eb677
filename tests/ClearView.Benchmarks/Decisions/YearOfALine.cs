using ClearView.Records.Sqlite;

using Microsoft.Data.Sqlite;

namespace ClearView.Benchmarks.Decisions;

/// <summary>A store file with a year of one invented line: three million readings of haze on rolls of 8000, with their places.</summary>
/// <remarks>
/// Rows go in through SQL, since only the reading of them is measured. Haze is drawn about 2 % with a slow wave and a shift in
/// the second half; payloads are empty, and a second measurand stands beside each haze value as it would in a store of readings.
/// </remarks>
internal sealed class YearOfALine : IAsyncDisposable
{
    public const int Readings = 3_000_000;
    public const string Line = "line 1";

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-year-");

    public YearOfALine()
    {
        var file = Path.Combine(_folder.FullName, "year.db");
        Store = SqliteStore.Open(file, TimeProvider.System);
        using var connection = new SqliteConnection($"Data Source={file};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandTimeout = 0;
        command.CommandText =
            """
            PRAGMA synchronous = OFF;
            INSERT INTO label (code, text) VALUES (1, 'line 1'), (2, 'haze'), (3, 'luminous_transmittance'), (4, 'clear 25'), (5, 'sphere A');
            INSERT INTO label (code, text) WITH RECURSIVE roll (value) AS (SELECT 0 UNION ALL SELECT value + 1 FROM roll WHERE value < 374)
            SELECT 100 + value, 'R-' || value FROM roll;
            INSERT INTO reading
            WITH RECURSIVE number (value) AS (SELECT 0 UNION ALL SELECT value + 1 FROM number WHERE value < 2999999)
            SELECT 1 + value, randomblob(16), 639000000000000000 + value * 105120000, 639000000000000000 + value * 105120000, 'line 1', 'clear 25',
                   '', 'R-' || (value / 8000), 'S', '0', x'', x'', x'', NULL, 'sphere A', (value % 20) * 100.0, (value % 8000) / 2.0
            FROM number;
            INSERT INTO series_value
            SELECT 1, 2, measured_at, sequence,
                   2 + 0.1 * sin(sequence / 50000.0) + iif(sequence > 1500000, 0.05, 0)
                     + 0.1 * (abs(random() % 1000000) + abs(random() % 1000000) + abs(random() % 1000000) - 1500000) / 500000.0,
                   4, 0, 100 + (sequence - 1) / 8000, 5, across_mm, along_m
            FROM reading ORDER BY measured_at;
            INSERT INTO series_value
            SELECT 1, 3, measured_at, sequence, 92, 4, 0, 100 + (sequence - 1) / 8000, 5, across_mm, along_m FROM reading ORDER BY measured_at;
            PRAGMA wal_checkpoint(TRUNCATE);
            """;
        command.ExecuteNonQuery();
    }

    public SqliteStore Store { get; }

    public async ValueTask DisposeAsync()
    {
        await Store.DisposeAsync();
        _folder.Delete(recursive: true);
    }
}

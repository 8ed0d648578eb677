using System.Globalization;

using ClearView.Records.Schema;
using ClearView.Records.Tests.Behaviour;

namespace ClearView.Records.Tests.Sqlite;

public sealed class ChainTests() : ChainBehaviour(new TemporarySqliteStore())
{
    private TemporarySqliteStore Store => (TemporarySqliteStore)Temporary;

    [Fact]
    public async Task Open_StoreOfAnEarlierSchema_AdoptsItsRecords()
    {
        await Store.ReopenAsync([.. Migration.OfSqlite.Take(3)]);
        await Store.CloseAsync();
        Execute(
            $"""
            WITH RECURSIVE number (n) AS (SELECT 1 UNION ALL SELECT n + 1 FROM number WHERE n < 1201)
            INSERT INTO reading SELECT n, randomblob(16), {TemporaryStore.Noon.UtcTicks} + n, 0, 'line 1', 'clear 25', '', 'R-1', 'S', '0', x'', x'01', x'' FROM number;
            INSERT INTO reading_value SELECT sequence, 0, 'haze', sequence / 100.0 FROM reading;
            INSERT INTO versioned VALUES ('method', 'film-25', 1, 5, 'M. Arden', 'film on line 3', x'010201');
            """);

        var adopted = await VerifyAsync();
        await Temporary.Store.AppendAsync(TemporaryStore.Entry(3), Token);
        await Temporary.ReopenAsync();
        var report = await VerifyAsync(adopted.Heads);

        Assert.Null(adopted.Break);
        Assert.Equal((1201L, 1L, 1202L), (adopted.Readings, adopted.Documents, adopted.Links));
        Assert.Null(report.Break);
        Assert.Equal(1203, report.Links);
        Assert.Equal(0L, Temporary.Scalar("SELECT count(*) FROM adoption"));
    }

    private protected override void DropGuards(string table)
    {
        using var connection = Store.Connect();
        using var list = connection.CreateCommand();
        list.CommandText = "SELECT name FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = @table";
        list.Parameters.AddWithValue("@table", table);
        List<string> triggers = [];
        using (var rows = list.ExecuteReader())
        {
            while (rows.Read())
            {
                triggers.Add(rows.GetString(0));
            }
        }

        foreach (var trigger in triggers)
        {
            Execute("DROP TRIGGER " + trigger);
        }
    }

    // A number has a bit flipped that makes no twin of a neighbour, a text or a payload that of its last byte (by its digits, so that SQLite can).
    private protected override string Flipped(string table, string column, string where)
    {
        var bytes = Store.Scalar($"SELECT {column} FROM {table} WHERE {where}");
        switch (bytes)
        {
            case byte[] { Length: > 0 } payload:
                payload[^1] ^= 1;
                return $"x'{Convert.ToHexString(payload)}'";
            case string { Length: > 0 } text:
                return $"'{text[..^1]}{(char)(text[^1] ^ 1)}'";
            case string:
                return "'\u0001'";
            case double number:
                return BitConverter.Int64BitsToDouble(BitConverter.DoubleToInt64Bits(number) ^ 1).ToString("R", CultureInfo.InvariantCulture);
            default:
                return $"({column} | 64) - ({column} & 64)";
        }
    }

    // A reading holds its identifier itself; apart from it only those of retired readings stand, of which a file has none.
    private protected override void SlipIdentifierIn()
    {
        DropGuards("retired_reading");
        Execute("INSERT INTO retired_reading SELECT randomblob(16), line, 77, '2026-01', 1 FROM reading WHERE sequence = 5");
    }

    private protected override void SlipReadingIn() => Execute(
        """
        INSERT INTO reading (sequence, id, measured_at, recorded_at, line, product, lot, roll, specimen, software_version, method, measurement, evaluation)
        SELECT 77, randomblob(16), measured_at, recorded_at, line, product, lot, roll, specimen, software_version, method, measurement, evaluation
        FROM reading WHERE sequence = 5
        """);
}

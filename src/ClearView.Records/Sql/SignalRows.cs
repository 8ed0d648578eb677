using System.Data.Common;

namespace ClearView.Records.Sql;

/// <summary>Rows of the table of signals.</summary>
internal static class SignalRows
{
    /// <summary>Inserts the signals of a reading, unless it has some.</summary>
    /// <returns>Whether they were inserted.</returns>
    public static bool Insert(DbConnection connection, DbTransaction transaction, string line, long sequence, byte[] signals)
    {
        using var command = Commands.Make(
            connection,
            """
            INSERT INTO reading_signal (line, sequence, signals) SELECT @line, @sequence, @signals
            WHERE NOT EXISTS (SELECT 1 FROM reading_signal WHERE line = @line AND sequence = @sequence)
            ON CONFLICT DO NOTHING
            """);
        command.Transaction = transaction;
        command.Add("@line", line);
        command.Add("@sequence", sequence);
        command.Add("@signals", signals);
        return command.ExecuteNonQuery() > 0;
    }
}

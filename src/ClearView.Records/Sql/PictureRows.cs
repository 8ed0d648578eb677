using System.Data.Common;

namespace ClearView.Records.Sql;

/// <summary>Rows of the table of pictures.</summary>
internal static class PictureRows
{
    /// <summary>The picture of a reading.</summary>
    public static byte[]? Find(DbConnection connection, DbTransaction? transaction, string line, long sequence)
    {
        using var command = Commands.Make(connection, "SELECT body FROM picture WHERE line = @line AND sequence = @sequence");
        command.Transaction = transaction;
        command.Add("@line", line);
        command.Add("@sequence", sequence);
        return command.ExecuteScalar() as byte[];
    }

    /// <summary>Inserts a picture.</summary>
    public static void Insert(DbConnection connection, DbTransaction transaction, string line, long sequence, ReadOnlyMemory<byte> picture)
    {
        using var command = Commands.Make(connection, "INSERT INTO picture (line, sequence, body) VALUES (@line, @sequence, @body)");
        command.Transaction = transaction;
        command.Add("@line", line);
        command.Add("@sequence", sequence);
        command.Add("@body", picture.ToArray());
        command.ExecuteNonQuery();
    }
}

using System.Data.Common;

namespace ClearView.Records.Sql;

/// <summary>Rows of the table of pictures.</summary>
internal static class PictureRows
{
    /// <summary>The picture of a reading.</summary>
    public static byte[]? Find(DbConnection connection, DbTransaction? transaction, long sequence)
    {
        using var command = Commands.Make(connection, "SELECT body FROM picture WHERE sequence = @sequence");
        command.Transaction = transaction;
        command.Add("@sequence", sequence);
        return command.ExecuteScalar() as byte[];
    }

    /// <summary>Inserts a picture.</summary>
    public static void Insert(DbConnection connection, DbTransaction transaction, long sequence, ReadOnlyMemory<byte> picture)
    {
        using var command = Commands.Make(connection, "INSERT INTO picture (sequence, body) VALUES (@sequence, @body)");
        command.Transaction = transaction;
        command.Add("@sequence", sequence);
        command.Add("@body", picture.ToArray());
        command.ExecuteNonQuery();
    }
}

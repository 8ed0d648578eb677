using System.Data.Common;

using ClearView.Records.Model;
using ClearView.Records.Retention;

namespace ClearView.Records.Sql;

/// <summary>Rows of the table of corrections.</summary>
internal static class CorrectionRows
{
    /// <summary>Looks for what a correction takes the place of.</summary>
    /// <param name="connection">The connection.</param>
    /// <param name="transaction">Its transaction.</param>
    /// <param name="database">Gives identifiers their form.</param>
    /// <param name="corrects">The reading that is to be corrected.</param>
    /// <param name="corrected">What is stored of it; <see langword="null"/> where nothing is.</param>
    /// <returns>Why it cannot; <see langword="null"/> where it can.</returns>
    public static CorrectionRefusal? Check(
        DbConnection connection, DbTransaction transaction, IStoreDatabase database, Guid corrects, out StoredReading? corrected)
    {
        corrected = ReadingRows.Find(connection, transaction, database, corrects);
        if (corrected is null)
        {
            return RetiredRows.Find(connection, transaction, database, corrects) is { } retired
                ? new CorrectionRefusal(CorrectionFault.Retired, null) { Retired = retired }
                : new CorrectionRefusal(CorrectionFault.NotFound, null);
        }

        return corrected.SupersededBy is { } by ? new CorrectionRefusal(CorrectionFault.Superseded, by) : null;
    }

    /// <summary>Inserts a correction, unless another one has come first.</summary>
    /// <param name="connection">The connection.</param>
    /// <param name="transaction">Its transaction.</param>
    /// <param name="database">Gives identifiers their form.</param>
    /// <param name="correction">The reading that corrects another one.</param>
    /// <returns>Whether it was inserted.</returns>
    public static bool Insert(DbConnection connection, DbTransaction transaction, IStoreDatabase database, StoredReading correction)
    {
        using var command = Commands.Make(
            connection,
            """
            INSERT INTO correction (line, superseded, superseded_sequence, by_sequence) VALUES (@line, @superseded, @corrected, @by)
            ON CONFLICT (line, superseded) DO NOTHING
            """);
        command.Transaction = transaction;
        command.Add("@line", correction.CorrectedLine);
        command.Add("@superseded", database.IdValue(correction.Entry.Corrects!.Value));
        command.Add("@corrected", correction.CorrectedSequence);
        command.Add("@by", correction.Sequence);
        return command.ExecuteNonQuery() == 1;
    }
}

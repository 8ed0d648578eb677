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
    /// <param name="corrected">The reading that is to be corrected.</param>
    /// <param name="sequence">Its sequence, where it can be corrected.</param>
    /// <returns>Why it cannot; <see langword="null"/> where it can.</returns>
    public static CorrectionRefusal? Check(
        DbConnection connection, DbTransaction transaction, IStoreDatabase database, Guid corrected, out long sequence)
    {
        sequence = 0;
        if (ReadingRows.Find(connection, transaction, database, corrected) is not { } earlier)
        {
            return RetiredRows.Find(connection, transaction, database, corrected) is { } retired
                ? new CorrectionRefusal(CorrectionFault.Retired, null) { Retired = retired }
                : new CorrectionRefusal(CorrectionFault.NotFound, null);
        }

        sequence = earlier.Sequence;
        return earlier.SupersededBy is { } by ? new CorrectionRefusal(CorrectionFault.Superseded, by) : null;
    }

    /// <summary>Inserts a correction, unless another one has come first.</summary>
    /// <returns>Whether it was inserted.</returns>
    public static bool Insert(
        DbConnection connection, DbTransaction transaction, IStoreDatabase database, Guid corrected, long correctedSequence, long bySequence)
    {
        using var command = Commands.Make(
            connection,
            "INSERT INTO correction (superseded, superseded_sequence, by_sequence) VALUES (@superseded, @corrected, @by) ON CONFLICT (superseded) DO NOTHING");
        command.Transaction = transaction;
        command.Add("@superseded", database.IdValue(corrected));
        command.Add("@corrected", correctedSequence);
        command.Add("@by", bySequence);
        return command.ExecuteNonQuery() == 1;
    }
}

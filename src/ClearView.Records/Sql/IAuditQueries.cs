using System.Data.Common;

namespace ClearView.Records.Sql;

/// <summary>What each engine asks in its own way when records are verified. Every answer comes through keys.</summary>
internal interface IAuditQueries
{
    /// <summary>Table whose column "sequence", with an index, lists every reading.</summary>
    string SequenceTable { get; }

    /// <summary>Whether a store of this engine may be the export of a month.</summary>
    bool MayBeExport { get; }

    /// <summary>Sets a transaction up for the commands below.</summary>
    void Prepare(DbConnection connection);

    /// <summary>A command that gives readings, in the columns of <see cref="ReadingRows.Read"/>.</summary>
    DbCommand Readings(DbConnection connection, IReadOnlyList<long> sequences);

    /// <summary>A command that gives the sequences of those readings that were retired.</summary>
    DbCommand Retired(DbConnection connection, IReadOnlyList<long> sequences);

    /// <summary>
    /// A command that gives values: sequence, code of the measurand, value, codes of product, lot, roll and instrument, place
    /// across in mm, place along in m.
    /// </summary>
    /// <param name="connection">The connection.</param>
    /// <param name="places">Where they stand.</param>
    /// <param name="measurands">Codes of the measurands to look for.</param>
    DbCommand Values(DbConnection connection, IReadOnlyList<SeriesPlace> places, IReadOnlyList<long> measurands);
}

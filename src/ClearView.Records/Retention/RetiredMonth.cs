namespace ClearView.Records.Retention;

/// <summary>Readings of a month that were exported and taken out of the store.</summary>
/// <param name="Month">The month of measurement in UTC, "2024-11".</param>
/// <param name="Part">1 for the first time that the month was retired, then 2: late readings begin a new part.</param>
/// <param name="FirstTick">First moment of the month, UTC in units of 100 ns since 0001-01-01.</param>
/// <param name="NextTick">First moment of the month after it.</param>
/// <param name="AfterSequence">Readings of the month up to this place in the order of recording belong to an earlier part.</param>
/// <param name="LastSequence">Readings of the month behind this place came later.</param>
/// <param name="Readings">Readings that were retired.</param>
/// <param name="Values">Their values of series.</param>
/// <param name="Sha256">SHA-256 over the rows of the export, 64 lower-case hexadecimal digits; see docs/audit.md.</param>
/// <param name="ExportFile">Name of the file that holds them, without its folder.</param>
/// <param name="RetiredAt">When, UTC.</param>
/// <param name="RetiredBy">By whom.</param>
public sealed record RetiredMonth(
    string Month,
    long Part,
    long FirstTick,
    long NextTick,
    long AfterSequence,
    long LastSequence,
    long Readings,
    long Values,
    string Sha256,
    string ExportFile,
    DateTimeOffset RetiredAt,
    string RetiredBy)
{
    /// <summary>In words, for the answer to somebody who asks for one of the readings.</summary>
    public override string ToString() => $"retired with the month {Month} on {RetiredAt:yyyy-MM-dd}; it is in the export {ExportFile}";
}

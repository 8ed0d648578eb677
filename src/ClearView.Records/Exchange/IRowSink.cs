using ClearView.Records.Audit;
using ClearView.Records.Model;

namespace ClearView.Records.Exchange;

/// <summary>Takes rows as they were stored elsewhere, within one transaction.</summary>
internal interface IRowSink
{
    /// <summary>Takes readings with their signals, without their values; times of recording and sequences stay.</summary>
    void AddReadings(IReadOnlyList<StoredReading> readings);

    /// <summary>Takes which of the readings still await their signals, after the readings.</summary>
    void AddAwaited(IReadOnlyList<(string Line, long Sequence)> readings);

    /// <summary>Takes values of series.</summary>
    void AddValues(IReadOnlyList<SeriesValue> values);

    /// <summary>Takes a document; the versions of a name come one after the other.</summary>
    void AddVersion(VersionedKind kind, StoredVersion version);

    /// <summary>Takes the picture of a reading.</summary>
    void AddPicture(string line, long sequence, byte[] picture);

    /// <summary>Takes links.</summary>
    void AddLinks(IReadOnlyList<Link> rows);
}

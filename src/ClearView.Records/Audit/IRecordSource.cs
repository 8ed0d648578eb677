namespace ClearView.Records.Audit;

/// <summary>Records of some kinds, as they stand in the store now.</summary>
internal interface IRecordSource
{
    /// <summary>Whether records of a kind are kept here.</summary>
    bool Keeps(string kind);

    /// <summary>
    /// Hashes of records. One that is not there is left out; one whose parts no longer belong together has an empty hash.
    /// </summary>
    IReadOnlyDictionary<RecordKey, ReadOnlyMemory<byte>> Hashes(IReadOnlyList<RecordKey> records);

    /// <summary>Number of all records.</summary>
    long Count();

    /// <summary>The first record that no link holds; it may take a walk over all of them.</summary>
    RecordKey? FirstWithoutLink();
}

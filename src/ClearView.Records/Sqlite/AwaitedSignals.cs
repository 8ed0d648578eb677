namespace ClearView.Records.Sqlite;

/// <summary>Readings of a store file whose signals are not stored yet. Safe for concurrent use.</summary>
internal sealed class AwaitedSignals
{
    private readonly Lock _lock = new();
    private readonly SortedSet<long> _sequences = [];
    private readonly List<long> _ofTransaction = [];
    private readonly HashSet<long> _settled = [];

    /// <summary>Place before the first of them; the greatest number where there is none.</summary>
    public long Floor
    {
        get
        {
            lock (_lock)
            {
                return _sequences.Count == 0 ? long.MaxValue : _sequences.Min - 1;
            }
        }
    }

    /// <summary>Those that are settled, and whose rows are still there.</summary>
    public long[] Settled
    {
        get
        {
            lock (_lock)
            {
                return [.. _settled];
            }
        }
    }

    /// <summary>Adds a reading, before its transaction commits.</summary>
    public void Add(long sequence)
    {
        lock (_lock)
        {
            _sequences.Add(sequence);
            _ofTransaction.Add(sequence);
        }
    }

    /// <summary>The transaction has committed.</summary>
    /// <param name="removed">Readings whose rows it removed.</param>
    public void Keep(IEnumerable<long> removed)
    {
        lock (_lock)
        {
            _ofTransaction.Clear();
            _settled.ExceptWith(removed);
        }
    }

    /// <summary>The transaction was rolled back, and its sequences will be given again.</summary>
    public void Forget()
    {
        lock (_lock)
        {
            _sequences.ExceptWith(_ofTransaction);
            _ofTransaction.Clear();
        }
    }

    /// <summary>A reading is listed from now on.</summary>
    /// <param name="sequence">The reading's place.</param>
    /// <param name="isStored">Whether its signals are stored, or it has none; otherwise its row stays, for the next server.</param>
    public void Settle(long sequence, bool isStored)
    {
        lock (_lock)
        {
            _sequences.Remove(sequence);
            if (isStored)
            {
                _settled.Add(sequence);
            }
        }
    }
}

namespace ClearView.Records.Sqlite;

/// <summary>Readings of a store file whose signals are not stored yet. Safe for concurrent use.</summary>
internal sealed class AwaitedSignals
{
    private readonly Lock _lock = new();
    private readonly SortedSet<long> _sequences = [];
    private readonly List<long> _ofTransaction = [];

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
    public void Keep()
    {
        lock (_lock)
        {
            _ofTransaction.Clear();
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

    /// <summary>A reading's signals are stored, or it has none.</summary>
    public void Settle(long sequence)
    {
        lock (_lock)
        {
            _sequences.Remove(sequence);
        }
    }
}

namespace ClearView.Records.Postgres;

/// <summary>Places in the order of recording that this server's writer took, so that those of others are known by what is missing.</summary>
/// <remarks>One writer takes ascending places; many may ask. Safe for concurrent use.</remarks>
internal sealed class OwnSequences
{
    /// <summary>Most stretches that are remembered; then the older half is forgotten.</summary>
    internal const int MostStretches = 50_000;

    private readonly Lock _lock = new();
    private readonly List<(long First, long Last)> _stretches = [];
    private long _forgottenThrough;
    private long _firstOfTransaction = long.MaxValue;

    /// <summary>Everything up to here may be an own one that was forgotten.</summary>
    public long ForgottenThrough
    {
        get
        {
            lock (_lock)
            {
                return _forgottenThrough;
            }
        }
    }

    /// <summary>Adds what a transaction took, before it commits.</summary>
    public void Take(IEnumerable<long> sequences)
    {
        lock (_lock)
        {
            foreach (var sequence in sequences.Order())
            {
                _firstOfTransaction = Math.Min(_firstOfTransaction, sequence);
                if (_stretches.Count > 0 && _stretches[^1].Last == sequence - 1)
                {
                    _stretches[^1] = (_stretches[^1].First, sequence);
                }
                else
                {
                    _stretches.Add((sequence, sequence));
                }
            }

            if (_stretches.Count > MostStretches)
            {
                _forgottenThrough = _stretches[(MostStretches / 2) - 1].Last;
                _stretches.RemoveRange(0, MostStretches / 2);
            }
        }
    }

    /// <summary>The transaction has committed.</summary>
    public void Keep()
    {
        lock (_lock)
        {
            _firstOfTransaction = long.MaxValue;
        }
    }

    /// <summary>The transaction was not confirmed: what may be stored of it nevertheless counts as another server's.</summary>
    public void Forget()
    {
        lock (_lock)
        {
            while (_stretches.Count > 0 && _stretches[^1].Last >= _firstOfTransaction)
            {
                var (first, _) = _stretches[^1];
                _stretches.RemoveAt(_stretches.Count - 1);
                if (first < _firstOfTransaction)
                {
                    _stretches.Add((first, _firstOfTransaction - 1));
                }
            }

            _firstOfTransaction = long.MaxValue;
        }
    }

    /// <summary>Whether every place behind the one and before the other is an own one.</summary>
    public bool Cover(long after, long before)
    {
        lock (_lock)
        {
            return before - after <= 1 || (StretchOf(after + 1) is { } stretch && stretch.Last >= before - 1);
        }
    }

    /// <summary>Whether a place is an own one.</summary>
    public bool Contain(long sequence)
    {
        lock (_lock)
        {
            return StretchOf(sequence) is not null;
        }
    }

    private (long First, long Last)? StretchOf(long sequence)
    {
        var low = 0;
        var high = _stretches.Count;
        while (low < high)
        {
            var middle = (low + high) / 2;
            (low, high) = _stretches[middle].Last < sequence ? (middle + 1, high) : (low, middle);
        }

        return low < _stretches.Count && _stretches[low].First <= sequence ? _stretches[low] : null;
    }
}

using ClearView.Records.Writing;

namespace ClearView.Records.Postgres;

/// <summary>The signals of a stored reading, waiting for the writer.</summary>
/// <param name="line">The reading's line.</param>
/// <param name="sequence">The reading's place in the order of recording.</param>
/// <param name="signals">The signals, serialised; empty where there are none.</param>
internal sealed class PendingSignals(string line, long sequence, byte[] signals) : Promise<byte[]>
{
    /// <summary>The reading's line.</summary>
    public string Line => line;

    /// <summary>The reading's place in the order of recording.</summary>
    public long Sequence => sequence;

    /// <summary>The signals.</summary>
    public byte[] Signals => signals;
}

using ClearView.Records.Retention;

namespace ClearView.Records.Model;

/// <summary>What came of handing a reading to the store.</summary>
public sealed record AppendOutcome
{
    private readonly StoredReading? _reading;

    /// <param name="reading">The reading under this identifier, as it is stored.</param>
    /// <param name="alreadyStored">Whether the identifier was taken.</param>
    public AppendOutcome(StoredReading reading, bool alreadyStored)
    {
        _reading = reading;
        AlreadyStored = alreadyStored;
    }

    /// <param name="refusal">Why the reading is not stored.</param>
    public AppendOutcome(CorrectionRefusal refusal) => Refusal = refusal;

    /// <param name="retired">The month with which the reading under this identifier was retired.</param>
    public AppendOutcome(RetiredMonth retired)
    {
        Retired = retired;
        AlreadyStored = true;
    }

    /// <summary>The reading under this identifier, as it is stored.</summary>
    /// <exception cref="InvalidOperationException">The reading was refused, or is retired.</exception>
    public StoredReading Reading => _reading ?? throw new InvalidOperationException("The reading was refused, or is retired.");

    /// <summary>The month with which the reading under this identifier was retired; <see langword="null"/> where it was not.</summary>
    public RetiredMonth? Retired { get; }

    /// <summary>
    /// <see langword="true"/> when the identifier was taken, so that nothing was written (the stored reading may differ from
    /// the one handed in); <see langword="false"/> when the reading is new, or was refused.
    /// </summary>
    public bool AlreadyStored { get; }

    /// <summary>Why the reading is not stored: it cannot correct what it says; <see langword="null"/> otherwise.</summary>
    public CorrectionRefusal? Refusal { get; }
}

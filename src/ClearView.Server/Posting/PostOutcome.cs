using ClearView.Records.Model;
using ClearView.Server.Mapping;
using ClearView.V1;

namespace ClearView.Server.Posting;

/// <summary>What came of a post: a stored reading, or why there is none.</summary>
internal sealed record PostOutcome
{
    /// <summary>The reading as it is stored, durably; <see langword="null"/> where the post is refused.</summary>
    public StoredReading? Stored { get; private init; }

    /// <summary>Whether an earlier post had stored it.</summary>
    public bool AlreadyStored { get; private init; }

    /// <summary>Signals that the reading raised, at this post or the earlier one that stored it.</summary>
    public IReadOnlyList<RaisedSignal> Signals { get; private init; } = [];

    /// <summary>Why the post is refused; <see langword="null"/> where the reading is stored.</summary>
    public PostFault? Fault { get; private init; }

    /// <summary>A reading that this post stored.</summary>
    public static PostOutcome New(StoredReading stored, IReadOnlyList<RaisedSignal> signals) => new() { Stored = stored, Signals = signals };

    /// <summary>A reading that an earlier post stored.</summary>
    public static PostOutcome Known(StoredReading stored) => new()
    {
        Stored = stored,
        AlreadyStored = true,
        Signals = ReadingMapper.SignalsOf(stored),
    };

    /// <summary>A post that is refused.</summary>
    public static PostOutcome Refused(PostFault fault) => new() { Fault = fault };
}

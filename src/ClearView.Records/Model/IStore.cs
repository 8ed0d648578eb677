using ClearView.Records.Audit;

namespace ClearView.Records.Model;

/// <summary>A store: readings, their series, and documents under names. Every engine behaves alike.</summary>
/// <remarks>
/// Safe for concurrent use. Disposing commits what is in flight; afterwards every call throws
/// <see cref="ObjectDisposedException"/> whose object is named "IStore", whichever engine it was.
/// </remarks>
public interface IStore : IAsyncDisposable
{
    /// <summary>The readings.</summary>
    IReadingStore Readings { get; }

    /// <summary>The readings in the order of recording.</summary>
    IRecordedStore Recorded { get; }

    /// <summary>The series of values.</summary>
    ISeriesStore Series { get; }

    /// <summary>The chains that hold every record.</summary>
    IAuditStore Audit { get; }

    /// <summary>The pictures of readings.</summary>
    IPictureStore Pictures { get; }

    /// <summary>The documents of a kind.</summary>
    /// <param name="kind">The kind.</param>
    IVersionedStore Documents(VersionedKind kind);
}

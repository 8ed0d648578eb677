using ClearView.Records.Audit;

namespace ClearView.Records.Model;

/// <summary>A store that is opened to look at its chains. Nothing is written to it, created or brought forward.</summary>
/// <remarks>Safe for concurrent use. Disposing closes it.</remarks>
public interface IAuditedStore : IAsyncDisposable
{
    /// <summary>The chains that hold every record.</summary>
    IAuditStore Audit { get; }
}

using ClearView.Records.Model;

namespace ClearView.Records.Writing;

/// <summary>What was promised to the poster of a write.</summary>
internal interface IPromise
{
    /// <summary>The lane that the write belongs to; <see langword="null"/> where it stands alone.</summary>
    WriteLane? Lane { get; }

    /// <summary>Keeps the promise: what was written is durable.</summary>
    void Complete();

    /// <summary>Tells why it cannot be kept.</summary>
    void Fail(Exception error);
}

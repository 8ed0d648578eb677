namespace ClearView.Records.Model;

/// <summary>Writes that must not overtake one another: once one of them fails, none that was handed in behind it is stored.</summary>
/// <remarks>A lane belongs to one writer of one store, and ends with its first failure; begin a new one to go on.</remarks>
public sealed class WriteLane
{
    /// <summary>Why the lane has ended; <see langword="null"/> while it goes on. The writer of the store sets it, and reads it.</summary>
    internal Exception? Failure { get; private set; }

    /// <summary>Ends the lane, unless it has ended.</summary>
    internal void End(Exception failure) => Failure ??= failure;
}

namespace ClearView.Quality.Lots;

/// <summary>A result, or the stated reason why there is none: never not-a-number.</summary>
/// <typeparam name="T">Type of the result.</typeparam>
public sealed record Stated<T>
    where T : class
{
    private Stated(T? value, DegenerateReason? reason, string? explanation)
    {
        Value = value;
        Reason = reason;
        Explanation = explanation;
    }

    /// <summary>The result; <see langword="null"/> where <see cref="Reason"/> says why.</summary>
    public T? Value { get; }

    /// <summary>Why there is no result; <see langword="null"/> where there is one.</summary>
    public DegenerateReason? Reason { get; }

    /// <summary>The reason in words, naming the lot; <see langword="null"/> where there is a result.</summary>
    public string? Explanation { get; }

    internal static Stated<T> As(T value) => new(value, null, null);

    internal static Stated<T> Not(DegenerateReason reason, string explanation) => new(null, reason, explanation);
}

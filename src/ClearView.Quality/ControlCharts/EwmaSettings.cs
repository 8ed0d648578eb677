namespace ClearView.Quality.ControlCharts;

/// <summary>Settings of an EWMA chart.</summary>
/// <param name="Weight">λ: weight of the newest point, above 0, 1 at most.</param>
/// <param name="LimitWidth">L: half width of the limits in standard deviations of the average, above 0.</param>
public sealed record EwmaSettings(double Weight, double LimitWidth)
{
    /// <summary>λ = 0.2, L = 3 (common practice, no source).</summary>
    public static EwmaSettings Usual { get; } = new(0.2, 3);

    internal void Check()
    {
        if (!(Weight is > 0 and <= 1))
        {
            throw new ArgumentOutOfRangeException(nameof(Weight), Weight, "expected a weight above 0, 1 at most.");
        }

        if (!(LimitWidth is > 0 and < double.PositiveInfinity))
        {
            throw new ArgumentOutOfRangeException(nameof(LimitWidth), LimitWidth, "expected a width above 0.");
        }
    }
}

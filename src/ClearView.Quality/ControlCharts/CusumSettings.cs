namespace ClearView.Quality.ControlCharts;

/// <summary>Settings of a tabular CUSUM chart, in standard deviations of the plotted points.</summary>
/// <param name="Slack">k: half the shift that is to be found, 0 or more.</param>
/// <param name="DecisionInterval">h: the sum that raises a signal, above 0.</param>
public sealed record CusumSettings(double Slack, double DecisionInterval)
{
    /// <summary>k = 0.5, h = 5 (common practice, no source).</summary>
    public static CusumSettings Usual { get; } = new(0.5, 5);

    internal void Check()
    {
        if (!(Slack is >= 0 and < double.PositiveInfinity))
        {
            throw new ArgumentOutOfRangeException(nameof(Slack), Slack, "expected 0 or more.");
        }

        if (!(DecisionInterval is > 0 and < double.PositiveInfinity))
        {
            throw new ArgumentOutOfRangeException(nameof(DecisionInterval), DecisionInterval, "expected above 0.");
        }
    }
}

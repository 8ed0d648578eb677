namespace ClearView.Plotting.Charts;

/// <summary>What was given cannot be shown as the chart that was asked for; the message says why and what would do.</summary>
public sealed class ChartRefusedException : Exception
{
    /// <summary>Creates the refusal.</summary>
    /// <param name="message">Why, and what would do.</param>
    public ChartRefusedException(string message)
        : base(message)
    {
    }

    /// <summary>Creates the refusal.</summary>
    /// <param name="message">Why, and what would do.</param>
    /// <param name="innerException">What led to it.</param>
    public ChartRefusedException(string message, Exception innerException)
        : base(message, innerException)
    {
    }

    /// <summary>Creates the refusal without a reason.</summary>
    public ChartRefusedException()
    {
    }
}

namespace ClearView.Quality.ControlCharts;

/// <summary>How the readings of a series are taken together into the points of a chart.</summary>
public sealed record Subgrouping
{
    /// <summary>Most readings of a subgroup that is formed by number.</summary>
    public const int MostConsecutive = 1000;

    private Subgrouping(int consecutiveCount)
    {
        ConsecutiveCount = consecutiveCount;
    }

    /// <summary>Each reading is a point of its own.</summary>
    public static Subgrouping None { get; } = new(1);

    /// <summary>Readings in a row with the same label; closed by the first reading with another label.</summary>
    public static Subgrouping ByLabel { get; } = new(0);

    /// <summary>Readings per subgroup: 1 where each is a point of its own, 0 where the label decides.</summary>
    public int ConsecutiveCount { get; }

    /// <summary>Whether each reading is a point of its own.</summary>
    public bool IsNone => ConsecutiveCount == 1;

    /// <summary>Whether the label decides.</summary>
    public bool IsByLabel => ConsecutiveCount == 0;

    /// <summary>So many readings in a row.</summary>
    /// <param name="count">Readings per subgroup, 2-1000.</param>
    /// <exception cref="ArgumentOutOfRangeException">The count is outside its range.</exception>
    public static Subgrouping Consecutive(int count) => count is >= 2 and <= MostConsecutive
        ? new Subgrouping(count)
        : throw new ArgumentOutOfRangeException(nameof(count), count, "expected a subgroup of 2 to 1000 readings.");
}

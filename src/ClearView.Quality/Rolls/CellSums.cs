namespace ClearView.Quality.Rolls;

/// <summary>Sums of one cell, about a value common to the roll.</summary>
internal struct CellSums
{
    /// <summary>Number of readings.</summary>
    public int Count;

    /// <summary>Sum of deviations.</summary>
    public double Sum;

    /// <summary>Sum of squared deviations.</summary>
    public double Squares;
}

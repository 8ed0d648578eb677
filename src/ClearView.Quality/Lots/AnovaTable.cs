namespace ClearView.Quality.Lots;

/// <summary>One-way analysis of variance: how the squares divide between and within lots.</summary>
/// <param name="BetweenSquares">Sum of squares between lots.</param>
/// <param name="WithinSquares">Sum of squares within lots.</param>
/// <param name="BetweenDegreesOfFreedom">Lots less one.</param>
/// <param name="WithinDegreesOfFreedom">Specimens less lots.</param>
/// <param name="Test">The F test, for lots of equal variance; stated where there is no spread within lots.</param>
public sealed record AnovaTable(
    double BetweenSquares, double WithinSquares, int BetweenDegreesOfFreedom, int WithinDegreesOfFreedom, Stated<FTest> Test)
{
    /// <summary>Mean square between lots.</summary>
    public double BetweenMeanSquare => BetweenSquares / BetweenDegreesOfFreedom;

    /// <summary>Mean square within lots; <see langword="null"/> without degrees of freedom.</summary>
    public double? WithinMeanSquare => WithinDegreesOfFreedom > 0 ? WithinSquares / WithinDegreesOfFreedom : null;

    /// <summary>η², the share of all squares that lies between lots, 0 to 1; <see langword="null"/> without spread.</summary>
    public double? EtaSquared => BetweenSquares + WithinSquares > 0 ? BetweenSquares / (BetweenSquares + WithinSquares) : null;

    /// <summary>ω², η² without its upward bias (Hays 1963); may be slightly negative; <see langword="null"/> without spread within lots.</summary>
    public double? OmegaSquared => WithinMeanSquare is > 0 and { } within
        ? (BetweenSquares - (BetweenDegreesOfFreedom * within)) / (BetweenSquares + WithinSquares + within)
        : null;
}

using ClearView.Quality.Descriptive;

namespace ClearView.Quality.ControlCharts;

/// <summary>Limits of a control chart, frozen: taken once from a stated baseline and not moved by later points.</summary>
/// <remarks>Made by <see cref="ControlBaseline"/> from readings or by <see cref="Given"/> from known values. Another baseline is another version.</remarks>
public sealed record ControlLimits
{
    internal ControlLimits(ControlChartKind kind, double centre, double standardDeviation, string estimate, int baselineCount, int subgroupSize)
    {
        Kind = kind;
        Centre = centre;
        StandardDeviation = standardDeviation;
        Estimate = estimate;
        BaselineCount = baselineCount;
        SubgroupSize = subgroupSize;
    }

    /// <summary>Which chart they are for.</summary>
    public ControlChartKind Kind { get; internal init; }

    /// <summary>Version, 1 or more; each new baseline raises it.</summary>
    public int Version { get; init; } = 1;

    /// <summary>Time over which the baseline was taken; <see langword="null"/> where it is not stated.</summary>
    public BaselineSpan? Span { get; init; }

    /// <summary>Number of points of the baseline; 0 where the values were given.</summary>
    public int BaselineCount { get; init; }

    /// <summary>Centre line of the readings: their mean over the baseline, or a target.</summary>
    public double Centre { get; internal init; }

    /// <summary>σ of single readings within subgroups, above 0.</summary>
    public double StandardDeviation { get; }

    /// <summary>How σ was estimated, in words.</summary>
    public string Estimate { get; init; }

    /// <summary>Usual subgroup size, 1 or more. Limits of a subgroup of another size follow that size.</summary>
    public int SubgroupSize { get; }

    /// <summary>Settings where it is an EWMA chart.</summary>
    public EwmaSettings? Ewma { get; internal init; }

    /// <summary>Settings where it is a CUSUM chart.</summary>
    public CusumSettings? Cusum { get; internal init; }

    /// <summary>Limits from known values instead of a baseline; stored limits come back so, with their baseline's count and estimate set beside.</summary>
    /// <param name="kind">Individuals or averages; see <see cref="WithEwma"/> and <see cref="WithCusum"/> for the others.</param>
    /// <param name="centre">Centre line, finite.</param>
    /// <param name="standardDeviation">σ of single readings, above 0.</param>
    /// <param name="subgroupSize">Usual subgroup size, 1 or more; 1 for individuals.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public static ControlLimits Given(ControlChartKind kind, double centre, double standardDeviation, int subgroupSize = 1)
    {
        if (!double.IsFinite(centre))
        {
            throw new ArgumentOutOfRangeException(nameof(centre), centre, "expected a finite number.");
        }

        if (!(standardDeviation is > 0 and < double.PositiveInfinity))
        {
            throw new ArgumentOutOfRangeException(nameof(standardDeviation), standardDeviation, "expected a standard deviation above 0.");
        }

        bool fits = kind switch
        {
            ControlChartKind.Individuals => subgroupSize == 1,
            ControlChartKind.AveragesWithRange => subgroupSize is >= 2 and <= ChartFactors.LargestRangeSize,
            ControlChartKind.AveragesWithStandardDeviation => subgroupSize >= 2,
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "expected individuals or averages."),
        };
        return fits
            ? new ControlLimits(kind, centre, standardDeviation, "given", 0, subgroupSize)
            : throw new ArgumentOutOfRangeException(nameof(subgroupSize), subgroupSize, $"does not go with the chart {kind}.");
    }

    /// <summary>The same baseline on an EWMA chart.</summary>
    /// <param name="settings">λ and L.</param>
    /// <exception cref="ArgumentOutOfRangeException">A setting is outside its range.</exception>
    public ControlLimits WithEwma(EwmaSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        settings.Check();
        return this with { Kind = ControlChartKind.Ewma, Ewma = settings, Cusum = null };
    }

    /// <summary>The same baseline on a CUSUM chart.</summary>
    /// <param name="settings">k and h.</param>
    /// <param name="target">What the sums are taken from; the centre line where none is given.</param>
    /// <exception cref="ArgumentOutOfRangeException">A setting is outside its range.</exception>
    public ControlLimits WithCusum(CusumSettings settings, double? target = null)
    {
        ArgumentNullException.ThrowIfNull(settings);
        settings.Check();
        Finite.Check(target ?? 0, nameof(target));
        return this with { Kind = ControlChartKind.Cusum, Cusum = settings, Ewma = null, Centre = target ?? Centre };
    }

    /// <summary>Limits of the mean of a subgroup: centre ± 3σ/√n (ISO 7870-2).</summary>
    /// <param name="subgroupSize">Its size, 1 or more.</param>
    public ChartBand ForMean(int subgroupSize)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(subgroupSize, 1);
        double width = 3 * StandardDeviation / Math.Sqrt(subgroupSize);
        return new ChartBand(Centre - width, Centre, Centre + width);
    }

    /// <summary>Limits of the moving range, range or standard deviation beside the chart (ISO 7870-2).</summary>
    /// <param name="subgroupSize">Size of the subgroup; ignored for individuals.</param>
    /// <returns><see langword="null"/> where the chart has none, or the subgroup is a single reading.</returns>
    public ChartBand? ForSpread(int subgroupSize)
    {
        switch (Kind)
        {
            case ControlChartKind.Individuals:
                return OfRange(ChartFactors.Of(2));
            case ControlChartKind.AveragesWithRange when subgroupSize >= 2:
                return OfRange(ChartFactors.Of(subgroupSize));
            case ControlChartKind.AveragesWithStandardDeviation when subgroupSize >= 2:
                double c4 = ChartFactors.C4(subgroupSize);
                double width = 3 * Math.Sqrt(1 - (c4 * c4));
                return new ChartBand(Math.Max(0, c4 - width) * StandardDeviation, c4 * StandardDeviation, (c4 + width) * StandardDeviation);
            default:
                return null;
        }
    }

    private ChartBand OfRange(ChartFactors factors)
    {
        double mean = factors.MeanOfRange * StandardDeviation;
        return new ChartBand(factors.RangeLowerFactor * mean, mean, factors.RangeUpperFactor * mean);
    }
}

namespace ClearView.Optics.Uncertainty;

/// <summary>Draws the deviation of the weighted sums that one source brings about.</summary>
internal sealed class SumDraw
{
    private readonly UncertaintySource _source;
    private readonly double[][] _directions;

    private SumDraw(UncertaintySource source, double[][] directions)
    {
        _source = source;
        _directions = directions;
    }

    public static SumDraw Of(UncertaintySource source, LinearFunctionals functionals)
    {
        double[] covariance = SumCovariance.Of(source, functionals);
        if (source.Correlation == SourceCorrelation.PerWavelength)
        {
            return new SumDraw(source, Columns(SumCovariance.Factor(covariance)));
        }

        var directions = new double[source.ComponentCount][];
        for (int component = 0; component < directions.Length; component++)
        {
            directions[component] = new double[LinearFunctionals.Count];
            functionals.Project(source.TotalDeviation(component), source.DiffuseDeviation(component), directions[component]);
        }

        return new SumDraw(source, directions);
    }

    public void AddTo(Span<double> sums, TrialRandom random)
    {
        double scale = random.StudentScale(_source.DegreesOfFreedom);
        foreach (double[] direction in _directions)
        {
            double draw = _source.Distribution == ErrorDistribution.Rectangular ? random.Rectangular() : scale * random.Normal();
            for (int j = 0; j < direction.Length; j++)
            {
                sums[j] += draw * direction[j];
            }
        }
    }

    private static double[][] Columns(double[] lower)
    {
        const int n = LinearFunctionals.Count;
        var columns = new List<double[]>();
        for (int k = 0; k < n; k++)
        {
            var column = new double[n];
            for (int j = k; j < n; j++)
            {
                column[j] = lower[(j * n) + k];
            }

            if (column.Any(v => v != 0))
            {
                columns.Add(column);
            }
        }

        return [.. columns];
    }
}

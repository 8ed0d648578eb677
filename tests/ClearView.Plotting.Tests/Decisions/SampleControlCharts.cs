using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Plotting.Tests.Decisions;

/// <summary>Drawn control charts of invented readings.</summary>
internal static class SampleControlCharts
{
    public const double Centre = 2.4;
    public const double Sigma = 0.12;

    // ASTM E2587: d2 = 1.128 and D4 = 3.267 for the moving range of two.
    public const double RangeCentre = 1.128 * Sigma;
    public const double RangeUpper = 3.267 * RangeCentre;

    private static readonly DateTime Start = new(2026, 3, 3, 6, 0, 0, DateTimeKind.Utc);

    public static Timestamp At(double hours) => Timestamp.FromDateTime(Start.AddHours(hours));

    public static IReadOnlyList<DrawnControlChart> Individuals(int count = 60, string phase = "start of production")
    {
        var noise = new Noise(7);
        var points = new List<ControlChartPoint>();
        double before = double.NaN;
        int side = 0;
        int run = 0;
        for (int i = 0; i < count; i++)
        {
            double value = Centre + (Sigma * noise.Next()) + (i is 24 or 25 ? 4 * Sigma : i is > 40 and < 52 ? 1.2 * Sigma : 0);
            var point = Point(i, 0.25 * i, value, Centre - (3 * Sigma), Centre, Centre + (3 * Sigma));
            run = Math.Sign(value - Centre) == side ? run + 1 : 1;
            side = Math.Sign(value - Centre);
            Raise(point, ControlPattern.BeyondLimits, Math.Abs(value - Centre) > 3 * Sigma);
            Raise(point, ControlPattern.RunOnOneSide, run >= 7);
            if (i > 0)
            {
                (point.Spread, point.SpreadLower, point.SpreadCentre, point.SpreadUpper) = (Math.Abs(value - before), 0, RangeCentre, RangeUpper);
                Raise(point, ControlPattern.SpreadBeyondLimits, point.Spread > RangeUpper);
            }

            before = value;
            points.Add(point);
        }

        return Parts(ControlChartKind.Individuals, points, [Phase(phase, 0, (0, 5))]);
    }

    /// <summary>Three points with the patterns at the second, one late.</summary>
    public static IReadOnlyList<DrawnControlChart> WithPatterns(params ControlPattern[] patterns)
    {
        ControlChartPoint[] points = [.. Enumerable.Range(0, 3).Select(i => Point(i, i, 2.3 + (0.1 * i), 2.04, 2.4, 2.76))];
        points[1].Patterns.Add(patterns);
        points[2].Late = true;
        return Parts(ControlChartKind.Individuals, points, [Phase("start", 0, null)]);
    }

    /// <summary>Subgroups of 2 to 6 readings over three phases with long names; the baseline of the last is late.</summary>
    public static IReadOnlyList<DrawnControlChart> Averages()
    {
        var noise = new Noise(3);
        var points = new List<ControlChartPoint>();
        for (int i = 0; i < 48; i++)
        {
            int phase = i < 16 ? 0 : i < 20 ? 1 : 2;
            int size = 2 + (i * 7 % 5);
            double centre = Centre - (0.15 * phase);
            double reach = 3 * Sigma / Math.Sqrt(size);
            var point = Point(i, 2.0 * i, centre + (reach / 3 * noise.Next()), centre - reach, centre, centre + reach);
            (point.PhaseCount, point.ReadingCount, point.Label) = ((uint)phase, (uint)size, $"R{i:000}");
            (point.Spread, point.SpreadLower, point.SpreadCentre, point.SpreadUpper) = (Sigma * (2 + (0.6 * noise.Next())), 0, 2 * Sigma, 4.5 * Sigma);
            point.Late = i is 30 or 31;
            Raise(point, ControlPattern.BeyondLimits, Math.Abs(point.Plotted - centre) > reach);
            Raise(point, ControlPattern.TwoOfThreeNearLimit, i is 35 or 36);
            Raise(point, ControlPattern.FourOfFiveOffCentre, i == 36);
            Raise(point, ControlPattern.SpreadBeyondLimits, point.Spread > point.SpreadUpper);
            points.Add(point);
        }

        IReadOnlyList<DrawnControlChart> parts = Parts(
            ControlChartKind.AveragesWithRange,
            points,
            [
                Phase("first die with the melt filter of forty micrometres", 0, (0, 20)),
                Phase("trial of the second resin grade, both extruders", 31, null),
                Phase("new die, chill roll at eighteen degrees", 39, (40, 70)),
            ]);
        parts[0].Summary.LateReadingCount = 2;
        parts[0].Summary.RevisedFrom = At(60);
        parts[0].Summary.AutocorrelationCaution = "Neighbouring readings are correlated (0.52): limits from the moving range lie too close, and more points fall beyond them than the process deserves.";
        return parts;
    }

    public static IReadOnlyList<DrawnControlChart> Ewma()
    {
        const double Weight = 0.2;
        var noise = new Noise(11);
        var points = new List<ControlChartPoint>();
        double average = Centre;
        for (int i = 0; i < 40; i++)
        {
            double value = Centre + (Sigma * noise.Next()) + (i > 25 ? Sigma : 0);
            average = (Weight * value) + ((1 - Weight) * average);
            double reach = 3 * Sigma * Math.Sqrt(Weight / (2 - Weight) * (1 - Math.Pow(1 - Weight, 2 * (i + 1))));
            var point = Point(i, i, average, Centre - reach, Centre, Centre + reach);
            point.Value = value;
            Raise(point, ControlPattern.EwmaBeyondLimits, Math.Abs(average - Centre) > reach);
            points.Add(point);
        }

        return Parts(ControlChartKind.Ewma, points, [Phase("start", 0, (0, 20))]);
    }

    public static IReadOnlyList<DrawnControlChart> Cusum()
    {
        var noise = new Noise(5);
        var points = new List<ControlChartPoint>();
        (double above, double below) = (0, 0);
        for (int i = 0; i < 50; i++)
        {
            double value = Centre + (Sigma * noise.Next()) - (i > 30 ? 1.1 * Sigma : 0);
            above = Math.Max(0, above + value - Centre - (0.5 * Sigma));
            below = Math.Max(0, below + Centre - value - (0.5 * Sigma));
            var point = Point(i, i, value, -5 * Sigma, Centre, 5 * Sigma);
            (point.SumAbove, point.SumBelow) = (above, below);
            Raise(point, ControlPattern.SumAboveTarget, above > 5 * Sigma);
            Raise(point, ControlPattern.SumBelowTarget, below > 5 * Sigma);
            points.Add(point);
        }

        return Parts(ControlChartKind.Cusum, points, [Phase("start", 0, (0, 20))]);
    }

    /// <summary>A year in 400 stretches of 200 points, and points with signals one by one.</summary>
    public static IReadOnlyList<DrawnControlChart> Thinned()
    {
        var noise = new Noise(13);
        DrawnControlChart part = new();
        for (int i = 0; i < 400; i++)
        {
            double shift = i is > 250 and < 275 ? 1.5 * Sigma : 0;
            double mean = Centre + shift + (0.15 * Sigma * noise.Next());
            part.Stretches.Add(new ControlChartStretch
            {
                MeasuredFrom = At(21.6 * i),
                MeasuredTo = At(21.6 * (i + 0.98)),
                PhaseCount = i < 150 ? 0u : 1u,
                PointCount = 200,
                Minimum = mean - (Sigma * (2.6 + (0.3 * noise.Next()))),
                Mean = mean,
                Maximum = mean + (Sigma * (2.6 + (0.3 * noise.Next()))),
                Lower = Centre - (3 * Sigma),
                Centre = Centre,
                Upper = Centre + (3 * Sigma),
                SignalPointCount = shift > 0 ? 20u : 0u,
            });
        }

        for (int i = 0; i < 300; i++)
        {
            ControlChartPoint point = Point(50000 + (40 * i), 5425 + (1.7 * i), Centre + (Sigma * (3.1 + (0.4 * noise.Uniform()))), 2.04, Centre, 2.76);
            point.PhaseCount = 1;
            point.Patterns.Add(ControlPattern.BeyondLimits);
            Raise(point, ControlPattern.RunOnOneSide, i % 3 == 0);
            part.Points.Add(point);
        }

        IReadOnlyList<DrawnControlChart> parts = Parts(ControlChartKind.Individuals, [], [Phase("first half", 0, (0, 600)), Phase("after the rebuild of line 2", 3240, (3240, 4000))]);
        parts[0].Summary.Thinned = true;
        parts[0].Summary.PointCount = parts[0].Summary.ReadingCount = 80000;
        parts[0].Summary.SignalPointCount = 480;
        return [parts[0], part];
    }

    private static ControlChartPoint Point(int position, double hours, double plotted, double lower, double centre, double upper) => new()
    {
        PositionCount = (ulong)position,
        MeasuredAt = At(hours),
        ReadingCount = 1,
        Value = plotted,
        Plotted = plotted,
        Lower = lower,
        Centre = centre,
        Upper = upper,
    };

    private static void Raise(ControlChartPoint point, ControlPattern pattern, bool raised)
    {
        if (raised)
        {
            point.Patterns.Add(pattern);
        }
    }

    private static ControlPhase Phase(string name, double fromHours, (double From, double To)? baseline)
    {
        var phase = new ControlPhase
        {
            Name = name,
            MeasuredFrom = At(fromHours),
            Limits = new FrozenLimits { Centre = Centre, StandardDeviation = Sigma, SubgroupCount = 1, Estimate = "mean moving range / 1.128" },
        };
        if (baseline is (double from, double to))
        {
            phase.Limits.BaselineCount = 20;
            phase.Limits.Baseline = new MeasuredSpan { MeasuredFrom = At(from), MeasuredBefore = At(to) };
        }

        return phase;
    }

    private static IReadOnlyList<DrawnControlChart> Parts(ControlChartKind kind, IReadOnlyList<ControlChartPoint> points, ControlPhase[] phases)
    {
        var chart = new ControlChart { Kind = kind, Series = new SeriesFilter { Measurand = "haze", Line = "Line 2", Product = "Clear 40" } };
        chart.Phases.Add(phases);
        var head = new DrawnControlChart
        {
            ControlChart = new NamedControlChart
            {
                ControlChartName = new ControlChartName { Name = "line-2-haze", Version = 3 },
                Description = "Haze of line 2",
                ControlChart = chart,
                StoredBy = "lab",
                StoredAt = At(-24),
            },
            Summary = new ControlChartSummary
            {
                Name = "Haze",
                Unit = "%",
                PointCount = (ulong)points.Count,
                ReadingCount = (ulong)points.Sum(point => point.ReadingCount),
                SignalPointCount = (ulong)points.Count(point => point.Patterns.Count > 0),
            },
        };
        head.Summary.Patterns.Add(points.SelectMany(point => point.Patterns).GroupBy(pattern => pattern)
            .Select(group => new PatternCount { Pattern = group.Key, PointCount = (ulong)group.Count() }));
        var rest = new DrawnControlChart();
        rest.Points.Add(points);
        return [head, rest];
    }
}

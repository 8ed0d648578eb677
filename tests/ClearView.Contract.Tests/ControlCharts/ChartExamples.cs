using ClearView.Contract.ControlCharts;
using ClearView.Contract.Validation;
using ClearView.Quality.Series;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Contract.Tests.ControlCharts;

/// <summary>Sound charts and values, for tests to spoil and to draw.</summary>
internal static class ChartExamples
{
    public static readonly DateTimeOffset Start = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);

    public static Timestamp At(int minute) => Start.AddMinutes(minute).ToTimestamp();

    public static FrozenLimits Known(double centre = 0, double standardDeviation = 1) =>
        new() { Centre = centre, StandardDeviation = standardDeviation };

    public static ControlChart Individuals(double centre = 0, double standardDeviation = 1) => new()
    {
        Series = new SeriesFilter { Measurand = "haze" },
        Kind = ControlChartKind.Individuals,
        Phases = { new ControlPhase { Name = "start", Limits = Known(centre, standardDeviation) } },
    };

    public static ControlChart Averages(uint size = 5) => new()
    {
        Series = new SeriesFilter { Measurand = "haze" },
        Kind = ControlChartKind.AveragesWithRange,
        Subgrouping = new Subgrouping { ConsecutiveCount = size },
        Phases = { new ControlPhase { Name = "start", Limits = Known() } },
    };

    public static StoreControlChartRequest Store(ControlChart? chart = null) => new()
    {
        Name = "line-3-haze",
        Description = "haze of line 3",
        ControlChart = chart ?? Individuals(),
        StoredBy = "M. Arden",
    };

    /// <summary>Values a minute apart.</summary>
    public static GivenSeries Values(IEnumerable<double> values, IEnumerable<string>? labels = null)
    {
        GivenSeries series = new() { Measurand = "haze", Value = { values }, Label = { labels ?? [] } };
        series.MeasuredAt.AddRange(series.Value.Select((_, i) => At(i)));
        return series;
    }

    public static SeriesColumns Columns(IEnumerable<(int Minute, long Order, double Value)> readings)
    {
        SeriesColumns columns = new(SeriesParts.Times | SeriesParts.RecordedOrder);
        foreach ((int minute, long order, double value) in readings.OrderBy(reading => (reading.Minute, reading.Order)))
        {
            columns.Add(new SeriesReading(Start.AddMinutes(minute).UtcTicks, order, value, "", double.NaN, double.NaN));
        }

        return columns;
    }

    public static DrawnControlChart[] Draw(DrawControlChartRequest request)
    {
        Violations violations = new();
        IEnumerable<DrawnControlChart>? parts = GivenControlChart.Draw(request, violations);
        Assert.Empty(violations.ToImmutable());
        return [.. parts!];
    }

    public static DrawnControlChart[] Draw(ControlChart chart, IEnumerable<double> values) =>
        Draw(new DrawControlChartRequest { ControlChart = chart, Values = Values(values) });

    /// <summary>Seeded normal values.</summary>
    public static double[] Normal(int seed, int count)
    {
        Random random = new(seed);
        return [.. Enumerable.Range(0, count).Select(_ => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble()))];
    }
}

using ClearView.Contract.Tests;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

using Grpc.Core;

namespace ClearView.Server.Tests.Services;

/// <summary>Sound charts, and readings of line 3 with a wanted haze.</summary>
internal static class ChartExamples
{
    private const double Total = 0.9;

    private static readonly DateTimeOffset Start = WireExamples.Clock.GetUtcNow().AddDays(-30);

    public static Timestamp At(int minute) => Start.AddMinutes(minute).ToTimestamp();

    /// <summary>A chart of haze of line 3 about 2 % with a standard deviation of 0.1 %.</summary>
    public static StoreControlChartRequest Store(string name = "line-3-haze", ControlChartKind kind = ControlChartKind.Individuals) => new()
    {
        Name = name,
        Description = "haze of line 3",
        StoredBy = "M. Arden",
        ControlChart = new ControlChart
        {
            Series = new SeriesFilter { Measurand = "haze", Line = "line 3" },
            Kind = kind,
            Phases = { new ControlPhase { Name = "start", Limits = new FrozenLimits { Centre = 2, StandardDeviation = 0.1 } } },
        },
    };

    /// <summary>A post of a reading of haze; the identifier follows from the number.</summary>
    public static PostReadingRequest Post(int number, int minute, double haze, string line = "line 3", string roll = "")
    {
        var measurement = WireExamples.Normalised(Total, haze * Total / 100);
        measurement.MeasuredAt = At(minute);
        measurement.Identification.Line = line;
        measurement.Identification.Roll = roll;
        return new PostReadingRequest
        {
            ReadingId = new Guid(number + 1, 1, 0x7000, 0x80, 0, 0, 0, 0, 0, 0, 1).ToString(),
            Measurement = measurement,
            MethodName = new MethodName { Name = "astm" },
        };
    }

    public static async Task<PostReadingResponse> PostAsync(TestServer server, int number, int minute, double haze, string line = "line 3", string roll = "") =>
        await server.Readings.PostReadingAsync(Post(number, minute, haze, line, roll), cancellationToken: TestContext.Current.CancellationToken);

    public static async Task<List<DrawnControlChart>> GetAsync(TestServer server, string name = "line-3-haze", MeasuredSpan? span = null)
    {
        using var call = server.ControlCharts.GetControlChart(
            new GetControlChartRequest { ControlChartName = new ControlChartName { Name = name }, Span = span },
            cancellationToken: TestContext.Current.CancellationToken);
        return await call.ResponseStream.ReadAllAsync(TestContext.Current.CancellationToken).Select(response => response.Part)
            .ToListAsync(TestContext.Current.CancellationToken);
    }

    /// <summary>Haze that strays about 2 %, seeded, with a few outliers and runs.</summary>
    public static double[] Haze(int seed, int count)
    {
        var random = new Random(seed);
        return [.. Enumerable.Range(0, count).Select(i => 2 + (0.25 * (random.NextDouble() - 0.5)) + (i / 20 % 3 == 1 ? 0.15 : 0) + (random.Next(15) == 0 ? 0.4 : 0))];
    }
}

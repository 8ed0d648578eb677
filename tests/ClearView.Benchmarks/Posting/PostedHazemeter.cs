using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

using Method = ClearView.V1.Method;

namespace ClearView.Benchmarks.Posting;

/// <summary>Small posts: the four readings of a hazemeter on an invented film.</summary>
internal static class PostedHazemeter
{
    /// <summary>The method of all of them.</summary>
    public static Method Method { get; } = new()
    {
        HazeStandard = HazeStandard.AstmD1003ProcedureA,
        Luminous = new LightAndObserver { Illuminant = "C", Observer = Observer.Cie19312Deg },
        Colour = new LightAndObserver { Illuminant = "D65", Observer = Observer.Cie196410Deg },
    };

    /// <summary>A measurement.</summary>
    /// <param name="number">Its number, from which its readings follow.</param>
    /// <param name="measuredAt">When.</param>
    /// <param name="line">On which line.</param>
    /// <param name="lot">Of which lot.</param>
    public static Measurement Measurement(int number, DateTimeOffset measuredAt, string line, string lot)
    {
        // The sum of four even numbers is near enough to normal; the number is the seed, so that every run has the same film.
        var random = new Random(number);
        var noise = random.NextDouble() + random.NextDouble() + random.NextDouble() + random.NextDouble() - 2;
        return new Measurement
        {
            MeasuredAt = measuredAt.ToTimestamp(),
            Identification = new Identification { Line = line, Product = "clear 25", Lot = lot, Specimen = FormattableString.Invariant($"S-{number}") },
            Conditions = new Conditions
            {
                Instrument = "hazemeter 1",
                ApertureMm = 25.4,
                UvFilter = UvFilter.None,
                Geometry = Geometry.DirectionalToSphere,
                Operator = "M. Arden",
            },
            Scans = new Scans
            {
                Hazemeter = new HazemeterReadings
                {
                    IncidentReading = 100,
                    TotalReading = 91.5,
                    InstrumentScatterReading = 0.4,
                    SpecimenScatterReading = 2.2 + (0.1 * noise),
                },
            },
        };
    }

    /// <summary>A post under an identifier of its own.</summary>
    public static PostReadingRequest Post(int number, DateTimeOffset measuredAt) => new()
    {
        ReadingId = Guid.CreateVersion7().ToString(),
        Method = Method,
        Measurement = Measurement(number, measuredAt, "line 3", FormattableString.Invariant($"L-{number / 5000}")),
    };
}

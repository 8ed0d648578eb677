using ClearView.V1;

using Timestamp = Google.Protobuf.WellKnownTypes.Timestamp;

namespace ClearView.Contract.Tests;

/// <summary>Sound measurements and methods, for tests to spoil.</summary>
internal static class WireExamples
{
    public static TimeProvider Clock { get; } = new FixedClock(new DateTimeOffset(2026, 11, 25, 12, 0, 0, TimeSpan.Zero));

    public static Method Method() => new()
    {
        HazeStandard = HazeStandard.AstmD1003ProcedureB,
        Luminous = new LightAndObserver { Illuminant = "C", Observer = Observer.Cie19312Deg },
        Colour = new LightAndObserver { Illuminant = "D65", Observer = Observer.Cie196410Deg },
        YellownessIndices = { YellownessIndex.AstmE313, YellownessIndex.AstmD1925 },
    };

    public static Measurement Normalised(double total = 0.9, double diffuse = 0.018) => WithScans(new Scans
    {
        Normalised = new NormalisedScans
        {
            Grid = Grid(),
            TransmittanceUnit = TransmittanceUnit.Fraction,
            TotalTransmittance = { Enumerable.Repeat(total, 43) },
            DiffuseTransmittance = { Enumerable.Repeat(diffuse, 43) },
        },
    });

    public static Measurement Sphere() => WithScans(new Scans
    {
        Sphere = new SphereScans
        {
            Grid = Grid(),
            IncidentReading = { Enumerable.Repeat(1000.0, 43) },
            TotalReading = { Enumerable.Repeat(900.0, 43) },
            InstrumentScatterReading = { Enumerable.Repeat(5.0, 43) },
            SpecimenScatterReading = { Enumerable.Repeat(22.5, 43) },
        },
    });

    public static Measurement Hazemeter() => WithScans(new Scans
    {
        Hazemeter = new HazemeterReadings
        {
            IncidentReading = 100,
            TotalReading = 92,
            InstrumentScatterReading = 0.5,
            SpecimenScatterReading = 2.3,
        },
    });

    public static WavelengthGrid Grid() => new() { Regular = new RegularGrid { StartNm = 360, StepNm = 10, Count = 43 } };

    public static Measurement WithScans(Scans scans) => new()
    {
        Scans = scans,
        Conditions = new Conditions
        {
            Instrument = "sphere 1",
            ApertureMm = 25.4,
            UvFilter = UvFilter.None,
            Geometry = Geometry.DirectionalToSphere,
            Operator = "M. Arden",
        },
        Identification = new Identification { Specimen = "S-1" },
        MeasuredAt = Timestamp.FromDateTimeOffset(Clock.GetUtcNow()),
    };

    private sealed class FixedClock(DateTimeOffset now) : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => now;
    }
}

using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

using Method = ClearView.V1.Method;

namespace ClearView.Benchmarks.Posting;

/// <summary>Posts of an invented film: 81 points of total and diffuse transmittance each, 380-780 nm at 5 nm.</summary>
internal static class PostedFilm
{
    private static readonly DateTimeOffset Start = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);

    private static readonly Method Method = new()
    {
        HazeStandard = HazeStandard.AstmD1003ProcedureB,
        Luminous = new LightAndObserver { Illuminant = "C", Observer = Observer.Cie19312Deg },
        Colour = new LightAndObserver { Illuminant = "D65", Observer = Observer.Cie196410Deg },
        YellownessIndices = { YellownessIndex.AstmE313 },
    };

    /// <summary>A post by its number, under an identifier of its own.</summary>
    public static PostReadingRequest Post(int number) => new()
    {
        ReadingId = Guid.CreateVersion7().ToString(),
        Method = Method,
        Measurement = new Measurement
        {
            MeasuredAt = Start.AddMilliseconds(100 * number).ToTimestamp(),
            Identification = new Identification
            {
                Line = "line 3",
                Product = "clear 25",
                Lot = "L-7",
                Roll = FormattableString.Invariant($"R-{number / 8000}"),
                Specimen = FormattableString.Invariant($"S-{number}"),
            },
            Conditions = new Conditions
            {
                Instrument = "sphere 1",
                ApertureMm = 25.4,
                UvFilter = UvFilter.None,
                Geometry = Geometry.DirectionalToSphere,
                Operator = "M. Arden",
            },
            Scans = new Scans
            {
                Normalised = new NormalisedScans
                {
                    Grid = new WavelengthGrid { Regular = new RegularGrid { StartNm = 380, StepNm = 5, Count = 81 } },
                    TransmittanceUnit = TransmittanceUnit.Fraction,
                    TotalTransmittance = { Enumerable.Range(0, 81).Select(i => 0.92 - (0.05 * Math.Exp(-i / 12.0)) - (number % 100 * 1e-5)) },
                    DiffuseTransmittance = { Enumerable.Range(0, 81).Select(i => 0.02 * Math.Pow(550.0 / (380 + (5 * i)), 1.6)) },
                },
            },
        },
    };
}

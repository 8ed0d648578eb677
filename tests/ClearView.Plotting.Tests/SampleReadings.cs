using ClearView.Contract;
using ClearView.Plotting.Charts;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

using Method = ClearView.V1.Method;

namespace ClearView.Plotting.Tests;

/// <summary>Readings made through the real evaluation, so that a chart is tested on what it will be given.</summary>
internal static class SampleReadings
{
    public static readonly DateTime Start = new(2026, 3, 3, 6, 0, 0, DateTimeKind.Utc);

    public static Method Method(string luminousIlluminant = "C", string colourIlluminant = "D65", V1.Observer colourObserver = V1.Observer.Cie19312Deg) => new()
    {
        HazeStandard = HazeStandard.AstmD1003ProcedureB,
        Luminous = new LightAndObserver { Illuminant = luminousIlluminant, Observer = V1.Observer.Cie19312Deg },
        Colour = new LightAndObserver { Illuminant = colourIlluminant, Observer = colourObserver },
    };

    /// <summary>A flat film, 380-780 nm at 10 nm, in percent.</summary>
    public static ChartReading Film(
        double totalPercent = 90,
        double? diffusePercent = 2,
        string roll = "R1",
        string product = "film A",
        string specimen = "S1",
        double minutes = 0,
        double blueLossPercent = 0,
        Method? method = null)
    {
        var scans = new NormalisedScans
        {
            Grid = new WavelengthGrid { Regular = new RegularGrid { StartNm = 380, StepNm = 10, Count = 41 } },
            TransmittanceUnit = TransmittanceUnit.Percent,
        };
        for (int i = 0; i < 41; i++)
        {
            scans.TotalTransmittance.Add(totalPercent - (blueLossPercent * (40 - i) / 40));
            if (diffusePercent is { } diffuse)
            {
                scans.DiffuseTransmittance.Add(diffuse);
            }
        }

        return Evaluate(new Scans { Normalised = scans }, roll, product, specimen, minutes, method ?? Method());
    }

    public static ChartReading Hazemeter(string specimen = "H1")
    {
        var readings = new HazemeterReadings { IncidentReading = 100, TotalReading = 90, InstrumentScatterReading = 0.5, SpecimenScatterReading = 3 };
        return Evaluate(new Scans { Hazemeter = readings }, "R1", "film A", specimen, 0, Method());
    }

    /// <summary>A run of rolls of equally many readings whose haze rises with the roll.</summary>
    public static IReadOnlyList<ChartReading> Run(int rolls, int perRoll) =>
    [
        .. Enumerable.Range(0, rolls * perRoll).Select(i => Film(
            diffusePercent: 1 + (i / perRoll),
            roll: $"R-{100 + (i / perRoll)}",
            specimen: $"S{i}",
            minutes: 2 * i)),
    ];

    private static ChartReading Evaluate(Scans scans, string roll, string product, string specimen, double minutes, Method method) =>
        Evaluate(scans, new Identification { Line = "Line 1", Product = product, Roll = roll, Specimen = specimen }, minutes, method);

    public static ChartReading Evaluate(Scans scans, Identification identification, double minutes, Method method)
    {
        var measurement = new Measurement
        {
            Scans = scans,
            Conditions = new Conditions
            {
                Instrument = "sphere 1",
                ApertureMm = 25,
                UvFilter = UvFilter.None,
                Geometry = Geometry.DirectionalToSphere,
                Operator = "tester",
                ThicknessUm = 50,
            },
            Identification = identification,
            MeasuredAt = Timestamp.FromDateTime(Start.AddMinutes(minutes)),
        };
        EvaluationOutcome outcome = MeasurementEvaluator.Evaluate(measurement, method, TimeProvider.System);
        Assert.True(outcome.IsAccepted, string.Join("; ", outcome.Violations));
        return new ChartReading(measurement, outcome.Evaluation, "test sample");
    }
}

using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

using Method = ClearView.V1.Method;

namespace ClearView.Contract.Tests;

public class InvalidMeasurementTests
{
    public static TheoryData<string, Action<Measurement>> Spoilers { get; } = new()
    {
        { "measurement.conditions", m => m.Conditions = null },
        { "measurement.identification", m => m.Identification = null },
        { "measurement.measured_at", m => m.MeasuredAt = null },
        { "measurement.measured_at", m => m.MeasuredAt = new Timestamp { Seconds = -1 } },
        { "measurement.measured_at", m => m.MeasuredAt = new Timestamp { Seconds = long.MaxValue } },
        { "measurement.measured_at", m => m.MeasuredAt = new Timestamp { Seconds = m.MeasuredAt.Seconds, Nanos = -1 } },
        { "measurement.measured_at", m => m.MeasuredAt.Seconds += 86_401 },
        { "measurement.scans", m => m.Scans = null },
        { "measurement.scans", m => m.Scans = new Scans() },
        { "measurement.conditions.instrument", m => m.Conditions.Instrument = " " },
        { "measurement.conditions.operator", m => m.Conditions.Operator = new string('x', 101) },
        { "measurement.conditions.operator", m => m.Conditions.Operator = "a\nb" },
        { "measurement.conditions.aperture_mm", m => m.Conditions.ApertureMm = 0 },
        { "measurement.conditions.aperture_mm", m => m.Conditions.ApertureMm = double.NaN },
        { "measurement.conditions.aperture_mm", m => m.Conditions.ApertureMm = 150.01 },
        { "measurement.conditions.uv_filter", m => m.Conditions.UvFilter = UvFilter.Unspecified },
        { "measurement.conditions.uv_filter", m => m.Conditions.UvFilter = (UvFilter)99 },
        { "measurement.conditions.geometry", m => m.Conditions.Geometry = Geometry.Unspecified },
        { "measurement.conditions.thickness_um", m => m.Conditions.ThicknessUm = -50 },
        { "measurement.conditions.conditioning_temperature_c", m => m.Conditions.ConditioningTemperatureC = 101 },
        { "measurement.conditions.conditioning_humidity_percent", m => m.Conditions.ConditioningHumidityPercent = -0.1 },
        { "measurement.conditions.conditioning_hours", m => m.Conditions.ConditioningHours = double.PositiveInfinity },
        { "measurement.identification.specimen", m => m.Identification.Specimen = "" },
        { "measurement.identification.line", m => m.Identification.Line = new string('x', 101) },
        { "measurement.identification.web.across_mm", m => m.Identification.Web = new WebPosition { AcrossMm = -1 } },
        { "measurement.identification.web.along_m", m => m.Identification.Web = new WebPosition { AlongM = double.NaN } },
        { "measurement.identification.wall.region", m => m.Identification.Wall = new WallPosition() },
        { "measurement.scans.normalised.grid", m => m.Scans.Normalised.Grid = null },
        { "measurement.scans.normalised.grid.regular.start_nm", m => m.Scans.Normalised.Grid.Regular.StartNm = 199 },
        { "measurement.scans.normalised.grid.regular.step_nm", m => m.Scans.Normalised.Grid.Regular.StepNm = 0 },
        { "measurement.scans.normalised.grid.regular.step_nm", m => m.Scans.Normalised.Grid.Regular.StepNm = double.NaN },
        { "measurement.scans.normalised.grid.regular.count", m => m.Scans.Normalised.Grid.Regular.Count = uint.MaxValue },
        { "measurement.scans.normalised.grid.regular.count", m => m.Scans.Normalised.Grid.Regular.Count = 1000 },
        { "measurement.scans.normalised.transmittance_unit", m => m.Scans.Normalised.TransmittanceUnit = TransmittanceUnit.Unspecified },
        { "measurement.scans.normalised.total_transmittance", m => m.Scans.Normalised.TotalTransmittance.RemoveAt(0) },
        { "measurement.scans.normalised.total_transmittance[3]", m => m.Scans.Normalised.TotalTransmittance[3] = double.NaN },
        { "measurement.scans.normalised.total_transmittance[3]", m => m.Scans.Normalised.TotalTransmittance[3] = 2.0001 },
        { "measurement.scans.normalised.diffuse_transmittance[3]", m => m.Scans.Normalised.DiffuseTransmittance[3] = -0.5001 },
        { "measurement.scans.normalised.diffuse_transmittance", m => m.Scans.Normalised.DiffuseTransmittance.Add(0) },
        {
            "measurement.scans.normalised.grid.irregular.wavelength_nm[2]",
            m => m.Scans.Normalised.Grid.Irregular = new IrregularGrid { WavelengthNm = { 380, 390, 390 } }
        },
        {
            "measurement.scans.normalised.grid.irregular.wavelength_nm[1]",
            m => m.Scans.Normalised.Grid.Irregular = new IrregularGrid { WavelengthNm = { 380, 431 } }
        },
    };

    public static TheoryData<string, Action<Method>> MethodSpoilers { get; } = new()
    {
        { "method.haze_standard", m => m.HazeStandard = HazeStandard.Unspecified },
        { "method.haze_standard", m => m.HazeStandard = (HazeStandard)77 },
        { "method.luminous", m => m.Luminous = null },
        { "method.luminous.illuminant", m => m.Luminous.Illuminant = "candle" },
        { "method.colour.observer", m => m.Colour.Observer = Observer.Unspecified },
        { "method.yellowness_indices", m => m.YellownessIndices.Add(YellownessIndex.AstmE313) },
        { "method.yellowness_indices[2]", m => m.YellownessIndices.Add(YellownessIndex.Unspecified) },
        { "method.yellowness_indices", m => m.Colour.Illuminant = "A" },
    };

    [Theory]
    [MemberData(nameof(Spoilers))]
    public void Evaluate_OneFieldSpoilt_NamesThatFieldOnly(string field, Action<Measurement> spoil)
    {
        Measurement measurement = WireExamples.Normalised();
        spoil(measurement);

        EvaluationOutcome outcome = MeasurementEvaluator.Evaluate(measurement, WireExamples.Method(), WireExamples.Clock);

        Assert.False(outcome.IsAccepted);
        FieldViolation violation = Assert.Single(outcome.Violations);
        Assert.Equal(field, violation.Field);
        Assert.Contains("expected", violation.Description, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(MethodSpoilers))]
    public void Evaluate_MethodSpoilt_NamesThatFieldOnly(string field, Action<Method> spoil)
    {
        Method method = WireExamples.Method();
        spoil(method);

        EvaluationOutcome outcome = MeasurementEvaluator.Evaluate(WireExamples.Normalised(), method, WireExamples.Clock);

        Assert.Equal(field, Assert.Single(outcome.Violations).Field);
    }

    [Theory]
    [InlineData("incident_reading[1]", 0)]
    [InlineData("incident_reading[1]", double.NegativeInfinity)]
    [InlineData("total_reading[1]", double.NaN)]
    public void Evaluate_SphereReadingSpoilt_NamesTheReading(string reading, double value)
    {
        Measurement measurement = WireExamples.Sphere();
        SphereScans scans = measurement.Scans.Sphere;
        (reading.StartsWith("incident", StringComparison.Ordinal) ? scans.IncidentReading : scans.TotalReading)[1] = value;

        EvaluationOutcome outcome = MeasurementEvaluator.Evaluate(measurement, WireExamples.Method(), WireExamples.Clock);

        Assert.Equal($"measurement.scans.sphere.{reading}", Assert.Single(outcome.Violations).Field);
    }

    [Fact]
    public void Evaluate_SphereReadingsThatCannotBeATransmittance_SaysWhere()
    {
        Measurement measurement = WireExamples.Sphere();
        measurement.Scans.Sphere.TotalReading[4] = 2500;

        FieldViolation violation = Assert.Single(
            MeasurementEvaluator.Evaluate(measurement, WireExamples.Method(), WireExamples.Clock).Violations);

        Assert.Equal("measurement.scans.sphere", violation.Field);
        Assert.Contains("250 % at 400 nm", violation.Description, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(1e-300)]
    public void Evaluate_HazemeterIncidentSpoilt_IsRefused(double incident)
    {
        Measurement measurement = WireExamples.Hazemeter();
        measurement.Scans.Hazemeter.IncidentReading = incident;

        Assert.False(MeasurementEvaluator.Evaluate(measurement, WireExamples.Method(), WireExamples.Clock).IsAccepted);
    }

    [Fact]
    public void Evaluate_SeveralFieldsSpoilt_NamesThemAll()
    {
        Measurement measurement = WireExamples.Normalised();
        measurement.Conditions.ApertureMm = -1;
        measurement.Identification.Specimen = "";
        measurement.Scans.Normalised.TotalTransmittance[0] = double.NaN;
        Method method = WireExamples.Method();
        method.Luminous = null;

        string[] fields = [.. MeasurementEvaluator.Evaluate(measurement, method, WireExamples.Clock).Violations.Select(v => v.Field)];

        Assert.Equal(
            [
                "method.luminous",
                "measurement.conditions.aperture_mm",
                "measurement.identification.specimen",
                "measurement.scans.normalised.total_transmittance[0]",
            ],
            fields);
    }

    [Fact]
    public void Evaluate_NothingAtAll_IsRefusedWithoutAnException()
    {
        EvaluationOutcome outcome = MeasurementEvaluator.Evaluate(null, (Method?)null, WireExamples.Clock);

        Assert.Equal(["method_choice", "measurement"], outcome.Violations.Select(violation => violation.Field));
    }

    // The limits themselves are accepted: 1990-01-01 and one day ahead of the clock.
    [Fact]
    public void Evaluate_TimesAtTheLimits_AreAccepted()
    {
        foreach (DateTimeOffset time in new[] { new DateTimeOffset(1990, 1, 1, 0, 0, 0, TimeSpan.Zero), WireExamples.Clock.GetUtcNow().AddDays(1) })
        {
            Measurement measurement = WireExamples.Normalised();
            measurement.MeasuredAt = Timestamp.FromDateTimeOffset(time);

            Assert.True(MeasurementEvaluator.Evaluate(measurement, WireExamples.Method(), WireExamples.Clock).IsAccepted);
        }
    }
}

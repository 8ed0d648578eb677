using ClearView.Contract.Series;
using ClearView.Contract.Validation;
using ClearView.Quality.Series;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Contract.Tests.Series;

/// <summary>Series that a caller brings along, read from the wire.</summary>
public class SeriesReaderTests
{
    private const SeriesParts Everything = SeriesParts.Times | SeriesParts.RecordedOrder | SeriesParts.Labels | SeriesParts.Places;

    [Fact]
    public void Read_WithoutTimes_CountsAsOneSecondApart()
    {
        SeriesColumns columns = Read(GivenExamples.Haze(3, 1, 2), Everything).Columns;

        Assert.Equal([3, 1, 2], columns.Values.ToArray());
        Assert.Equal([TimeSpan.TicksPerSecond, TimeSpan.TicksPerSecond], [.. columns.MeasuredAtTicks.ToArray().Skip(1).Zip(columns.MeasuredAtTicks.ToArray(), (next, last) => next - last)]);
        Assert.Equal([0, 1, 2], columns.RecordedOrder.ToArray());
        Assert.Equal(["", "", ""], columns.Labels.ToArray());
        Assert.All(columns.AcrossMm.ToArray(), place => Assert.True(double.IsNaN(place)));
        Assert.All(columns.AlongM.ToArray(), place => Assert.True(double.IsNaN(place)));
    }

    [Fact]
    public void Read_TimesOutOfOrder_AreSortedAndEqualOnesKeepTheirOrder()
    {
        GivenSeries given = GivenExamples.Haze(1, 2, 3, 4, 5);
        given.MeasuredAt.AddRange(new[] { 20, 10, 20, 10, 0 }.Select(seconds => GivenExamples.At(seconds)));
        given.Label.AddRange(["a", "b", "c", "d", "e"]);
        given.AcrossMm.AddRange([10, 20, 30, 40, 50]);
        given.AlongM.AddRange([1, 2, double.NaN, 4, 5]);

        SeriesColumns columns = Read(given, Everything).Columns;

        Assert.Equal([5, 2, 4, 1, 3], columns.Values.ToArray());
        Assert.Equal([4, 1, 3, 0, 2], columns.RecordedOrder.ToArray());
        Assert.Equal(["e", "b", "d", "a", "c"], columns.Labels.ToArray());
        Assert.Equal([50, 20, 40, 10, 30], columns.AcrossMm.ToArray());
        Assert.Equal([5, 2, 4, 1, double.NaN], columns.AlongM.ToArray());
        Assert.Equal(new DateTime(2025, 3, 1, 8, 0, 0).Ticks, columns.MeasuredAtTicks[0]);
    }

    [Fact]
    public void Read_KeepsOnlyThePartsAsked()
    {
        GivenSeries given = GivenExamples.Haze(1, 2);
        given.Label.AddRange(["a", "b"]);

        SeriesColumns columns = Read(given, SeriesParts.None).Columns;

        Assert.Equal(2, columns.Count);
        Assert.True(columns.MeasuredAtTicks.IsEmpty && columns.Labels.IsEmpty && columns.AcrossMm.IsEmpty);
    }

    [Fact]
    public void Read_EveryFieldAtFault_IsNamedAtOnce()
    {
        GivenSeries given = new()
        {
            Measurand = "gloss",
            Value = { 1, double.NaN, 3, 1e16 },
            MeasuredAt = { GivenExamples.At(0), new Timestamp { Nanos = -1 }, GivenExamples.At(2), new Timestamp { Seconds = 253_402_300_800 } },
            Label = { "a", "b" },
            AcrossMm = { 1, 2, -0.5, 20_001 },
            AlongM = { 1, double.PositiveInfinity, 3, 1_000_001 },
        };

        Assert.Equal(
            [
                "given.measurand", "given.value[1]", "given.value[3]", "given.measured_at[1]", "given.measured_at[3]", "given.label",
                "given.across_mm[2]", "given.across_mm[3]", "given.along_m[1]", "given.along_m[3]",
            ],
            Faults(given));
    }

    [Fact]
    public void Read_Columns_AreAsLongAsTheValuesOrEmpty()
    {
        GivenSeries given = GivenExamples.Haze(1, 2);
        given.MeasuredAt.Add(GivenExamples.At(0));
        given.AcrossMm.AddRange([1, 2, 3]);
        given.AlongM.Add(1);

        Assert.Equal(["given.measured_at", "given.across_mm", "given.along_m"], Faults(given));
    }

    [Fact]
    public void Read_NoValueOrTooMany_IsRefused()
    {
        Assert.Equal(["given.value"], Faults(GivenExamples.Haze()));
        Assert.Equal(["given.value"], Faults(GivenExamples.Haze(new double[SeriesReader.MostValues + 1])));
        Assert.Equal(SeriesReader.MostValues, Read(GivenExamples.Haze(new double[SeriesReader.MostValues]), SeriesParts.Times).Columns.Count);
    }

    [Fact]
    public void Read_LongLabel_IsNamedAtItsPlace()
    {
        GivenSeries given = GivenExamples.Haze(1, 2);
        given.Label.AddRange([new string('a', 100), new string('a', 101)]);

        Assert.Equal(["given.label[1]"], Faults(given));
    }

    [Fact]
    public void Read_Angle_IsRefused()
    {
        GivenSeries given = GivenExamples.Haze(359, 1);
        given.Measurand = "cielab_hue";

        Assert.Equal(["given.measurand"], Faults(given));
    }

    private static MeasuredSeries Read(GivenSeries given, SeriesParts parts)
    {
        var violations = new Violations();
        MeasuredSeries? series = SeriesReader.Read(given, parts, "given", violations);
        Assert.Empty(violations.ToImmutable());
        return series!;
    }

    private static string[] Faults(GivenSeries given)
    {
        var violations = new Violations();
        Assert.Null(SeriesReader.Read(given, Everything, "given", violations));
        return [.. violations.ToImmutable().Select(violation => violation.Field)];
    }
}

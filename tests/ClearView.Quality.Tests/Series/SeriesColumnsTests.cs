using ClearView.Quality.Series;

namespace ClearView.Quality.Tests.Series;

public sealed class SeriesColumnsTests
{
    [Fact]
    public void Add_KeepsOnlyTheParts_ThatWereAskedFor()
    {
        SeriesColumns columns = new(SeriesParts.Times | SeriesParts.Labels);

        columns.Add(new SeriesReading(10, 1, 2.5, "R-1", 100, 3));
        columns.Add(new SeriesReading(10, 2, 2.75, "R-2", 110, 4));

        Assert.Equal([2.5, 2.75], columns.Values.ToArray());
        Assert.Equal([10, 10], columns.MeasuredAtTicks.ToArray());
        Assert.Equal(["R-1", "R-2"], columns.Labels.ToArray());
        Assert.Empty(columns.RecordedOrder.ToArray());
        Assert.Empty(columns.AcrossMm.ToArray());
        Assert.Empty(columns.AlongM.ToArray());
    }

    [Fact]
    public void Add_RefusesWhatIsOutOfOrder_OrNoNumber()
    {
        SeriesColumns columns = new(SeriesParts.Times);
        columns.Add(new SeriesReading(10, 1, 2.5, "", double.NaN, double.NaN));

        Assert.Throws<ArgumentException>(() => columns.Add(new SeriesReading(9, 2, 2.5, "", double.NaN, double.NaN)));
        Assert.Throws<ArgumentException>(() => columns.Add(new SeriesReading(11, 2, double.NaN, "", double.NaN, double.NaN)));
        Assert.Equal(1, columns.Count);
    }
}

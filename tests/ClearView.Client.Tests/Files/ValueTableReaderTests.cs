using System.Text;

using ClearView.Client.Files;

namespace ClearView.Client.Tests.Files;

public class ValueTableReaderTests
{
    private const string Film = """
        # Invented readings.
        measured_at,Line,roll,specimen,across_mm,along_m,haze,shift leader
        2026-03-02T06:20:00Z,3,14,F-2,300,20.5,1.6,Arden
        2026-03-02T07:10:00+01:00,3,14,F-1,100,10,1.5,Arden
        2026-03-02T06:30:00Z,3,15,F-3,500,30,,Arden
        """;

    [Fact]
    public void Read_EveryColumn_IsKnownByItsName()
    {
        var table = Read(Film);

        Assert.Equal(["haze"], table.Measurands);
        Assert.Equal(3, table.Rows.Length);
        var row = table.Rows[1];
        Assert.Equal(new DateTime(2026, 3, 2, 6, 10, 0, DateTimeKind.Utc), row.MeasuredAt!.ToDateTime());
        Assert.Equal(("3", "14", "F-1", 100d, 10d, 1.5, 4), (row.Line, row.Roll, row.Specimen, row.AcrossMm, row.AlongM, row.Values["haze"], row.FileLine));
        Assert.Empty(table.Rows[2].Values);
        Assert.Equal(["column 8 (\"shift leader\") is not known here; it was left aside"], table.Notes);
    }

    [Fact]
    public void ToSeries_TakesRowsWithAValue_InTheOrderOfTheirTimes()
    {
        var series = Read(Film).ToSeries("haze", row => row.Roll);

        Assert.Equal([1.5, 1.6], series.Value);
        Assert.Equal([6, 6], series.MeasuredAt.Select(time => time.ToDateTime().Hour));
        Assert.Equal([100, 300], series.AcrossMm);
        Assert.Equal([10, 20.5], series.AlongM);
        Assert.Equal(["14", "14"], series.Label);
    }

    [Theory]
    [InlineData("roll;haze (%)\n14;1,25\n", 1.25)]
    [InlineData("roll\tHAZE\n14\t1.25\n", 1.25)]
    [InlineData("\"roll\",\"haze_percent\"\n\"14\",\"1.25\"\n", 1.25)]
    [InlineData("some title\nroll,haze\n14,1.25e0\n", 1.25)]
    // The identifier ends as a unit would.
    [InlineData("edge_wavelength_10_percent\n310.5\n", 310.5)]
    [InlineData("dominant wavelength (nm)\n570\n", 570)]
    public void Read_SeparatorMarkAndUnit_AreFound(string text, double expected) =>
        Assert.Equal(expected, Assert.Single(Assert.Single(Read(text).Rows).Values).Value);

    [Fact]
    public void ToLots_GroupsRows_AndKeepsAgeing()
    {
        var lots = Read("lot,haze,ageing_hours\nB,1.1,0\nA,2.1,0\nB,1.2,100\nA,,100\n").ToLots("haze").Lots;

        Assert.Equal(["B", "A"], lots.Select(lot => lot.Lot));
        Assert.Equal([1.1, 1.2], lots[0].Value);
        Assert.Equal([0, 100], lots[0].AgeingHours);
        Assert.Equal([2.1], lots[1].Value);
    }

    [Theory]
    [InlineData("roll,lot\n14,A\n", 1, null, "no header row was found")]
    [InlineData("", null, null, "the file is empty")]
    [InlineData("roll,haze\n", 1, null, "no row follows the header")]
    [InlineData("roll,haze\n14,1.2x\n", 2, 2, "\"1.2x\" is not a number")]
    [InlineData("roll;haze\n14;1,2\n15;1.3\n", 3, 2, "decimal point where the file uses a decimal comma")]
    [InlineData("roll,haze,haze (%)\n14,1,1\n", 1, 3, "\"haze\" already stands in column 2")]
    [InlineData("roll,haze (nm)\n14,1\n", 1, 2, "has the unit \"nm\"")]
    [InlineData("roll,haze\n14,1,2\n", 2, 3, "the row has 3 cells where the header has 2")]
    [InlineData("measured_at,haze\n2026-03-02T06:00:00,1\n", 2, 1, "has no offset from UTC")]
    [InlineData("across_mm,haze\nmiddle,1\n", 2, 1, "\"middle\" is not a number")]
    public void Read_FileThatDoesNotFit_NamesLineAndColumn(string text, int? line, int? column, string problem)
    {
        var fault = Assert.Throws<ScanFileException>(() => Read(text));

        Assert.Equal((line, column), (fault.Line, fault.Column));
        Assert.Contains(problem, fault.Problem, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("measured_at,haze\n2026-03-02T06:00:00Z,1\n,2\n", "haze", 3, "measured_at is empty where other rows have it")]
    [InlineData("across_mm,haze\n100,1\n,2\n", "haze", 3, "across_mm is empty where other rows have it")]
    [InlineData("roll,haze\n14,1\n", "cielab_b", null, "no column holds cielab_b")]
    [InlineData("roll,haze\n14,\n", "haze", null, "no row has a value of haze")]
    public void ToSeries_ValuesThatMakeNone_AreTold(string text, string measurand, int? line, string problem)
    {
        var fault = Assert.Throws<ScanFileException>(() => Read(text).ToSeries(measurand));

        Assert.Equal(line, fault.Line);
        Assert.Contains(problem, fault.Problem, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("lot,haze\nA,1\n,2\n", 3, "the row names no lot")]
    [InlineData("lot,haze,ageing_hours\nA,1,0\nA,2,\n", 3, "ageing_hours is empty where other rows have it")]
    public void ToLots_ValuesThatMakeNone_AreTold(string text, int line, string problem)
    {
        var fault = Assert.Throws<ScanFileException>(() => Read(text).ToLots("haze"));

        Assert.Equal(line, fault.Line);
        Assert.Contains(problem, fault.Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_NoSuchFile_SaysSo() => Assert.Throws<ScanFileException>(() => ValueTableReader.Read("nothing.csv", ValueTableOptions.None));

    private static ValueTable Read(string text)
    {
        using var stream = new MemoryStream(Encoding.UTF8.GetBytes(text));
        return ValueTableReader.Read(stream, "values.csv", ValueTableOptions.None);
    }
}

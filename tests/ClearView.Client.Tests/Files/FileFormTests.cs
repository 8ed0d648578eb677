using System.Globalization;
using System.Text;

using ClearView.Client.Files;
using ClearView.V1;

namespace ClearView.Client.Tests.Files;

public class FileFormTests
{
    private const string Percent = Sample.Keys + "wavelength (nm),total (%),diffuse (%)\n400,91,1.5\n410,92,1.25\n";

    [Theory]
    [InlineData("wavelength (nm)", "total (%)", "diffuse (%)")]
    [InlineData("Wavelength [nm]", "Total [%]", "Diffuse [%]")]
    [InlineData("wavelength_nm", "total_percent", "diffuse_percent")]
    [InlineData("nm", "Tt (%)", "Td (%)")]
    [InlineData("λ / nm", "τt / %", "τd / %")]
    [InlineData("lambda nm", "total transmittance (percent)", "diffuse transmittance (percent)")]
    [InlineData("\"wavelength (nm)\"", "\"total_transmittance_percent\"", "\"diffuse_transmittance_percent\"")]
    public void Read_HeaderSpellings_MeanTheSame(string wavelength, string total, string diffuse)
    {
        var text = $"{Sample.Keys}{wavelength},{total},{diffuse}\n400,91,1.5\n410,92,1.25\n";

        Assert.Equal(Assert.Single(Sample.Read(Percent)).Measurement, Assert.Single(Sample.Read(text)).Measurement);
    }

    [Theory]
    [InlineData(",", '.')]
    [InlineData(";", '.')]
    [InlineData(";", ',')]
    [InlineData("\t", '.')]
    [InlineData("\t", ',')]
    public void Read_SeparatorAndDecimalMark_AreFound(string separator, char mark)
    {
        var body = "wavelength (nm)|total (%)|diffuse (%)\n400|91|1.5\n410|92|1.25\n".Replace('.', mark).Replace("|", separator, StringComparison.Ordinal);

        Assert.Equal(Assert.Single(Sample.Read(Percent)).Measurement, Assert.Single(Sample.Read(Sample.Keys + body)).Measurement);
    }

    [Theory]
    [InlineData("utf-8", false)]
    [InlineData("utf-8", true)]
    [InlineData("utf-16", true)]
    [InlineData("utf-16BE", true)]
    public void Read_Encodings_MeanTheSame(string name, bool withMark)
    {
        var encoding = Encoding.GetEncoding(name);
        byte[] bytes = [.. withMark ? encoding.GetPreamble() : [], .. encoding.GetBytes(Percent)];

        Assert.Equal(Assert.Single(Sample.Read(Percent)).Measurement, Assert.Single(Sample.Read(bytes)).Measurement);
    }

    [Theory]
    [InlineData("\n")]
    [InlineData("\r\n")]
    [InlineData("\r")]
    public void Read_LineEnds_MeanTheSame(string end) => Assert.Equal(
        Assert.Single(Sample.Read(Percent)).Measurement,
        Assert.Single(Sample.Read(Percent.Replace("\n", end, StringComparison.Ordinal))).Measurement);

    [Fact]
    public void Read_WithoutUnits_TakesThemFromKeyOrOption()
    {
        const string Body = "wavelength,total,diffuse\n400,0.91,0.015\n410,0.92,0.0125\n";
        var byOption = Sample.Read(
            Sample.Keys + Body, new ScanFileOptions { WavelengthsAreNm = true, TransmittanceUnit = TransmittanceUnit.Fraction });
        var byKey = Sample.Read(Sample.Keys + "# transmittance_unit: fraction\n" + Body, new ScanFileOptions { WavelengthsAreNm = true });

        Assert.Equal(TransmittanceUnit.Fraction, Assert.Single(byOption).Measurement.Scans.Normalised.TransmittanceUnit);
        Assert.Equal(byOption[0].Measurement, Assert.Single(byKey).Measurement);
    }

    [Fact]
    public void Read_Options_FillInAndOverride()
    {
        var text = Percent.Replace("# operator: o\n", "", StringComparison.Ordinal);
        var options = new ScanFileOptions
        {
            Defaults = ScanFileOptions.None.Defaults.Add(ScanFileKeys.Operator, "second").Add(ScanFileKeys.Instrument, "unused"),
            Overrides = ScanFileOptions.None.Overrides.Add(ScanFileKeys.ApertureMm, "12.7"),
        };

        var conditions = Assert.Single(Sample.Read(text, options)).Measurement.Conditions;

        Assert.Equal("second", conditions.Operator);
        Assert.Equal("i", conditions.Instrument);
        Assert.Equal(12.7, conditions.ApertureMm);
    }

    [Fact]
    public void Read_UnevenWavelengths_GiveAnIrregularGrid()
    {
        var scans = Assert.Single(Sample.Read(Sample.Keys + "nm,total (%)\n400,91\n405,91\n412,91\n430.5,91\n")).Measurement.Scans.Normalised;

        Assert.Equal([400, 405, 412, 430.5], scans.Grid.Irregular.WavelengthNm);
        Assert.Empty(scans.DiffuseTransmittance);
    }

    [Fact]
    public void Read_MissingWavelength_IsAcceptedOnDemand()
    {
        const string Text = Sample.Keys + "nm,total (%)\n400,91\n405,91\n415,91\n420,91\n";

        Assert.Contains("410 nm is missing", Sample.Fault(Text).Message, StringComparison.Ordinal);
        var accepted = Assert.Single(Sample.Read(Text, new ScanFileOptions { AcceptGaps = true }));
        Assert.Equal([400, 405, 415, 420], accepted.Measurement.Scans.Normalised.Grid.Irregular.WavelengthNm);
    }

    [Fact]
    public void Read_StepChangesOnce_IsNoGap()
    {
        var scans = Assert.Single(Sample.Read(Sample.Keys + "nm,total (%)\n400,91\n405,91\n410,91\n420,91\n430,91\n")).Measurement.Scans.Normalised;

        Assert.Equal(5, scans.Grid.Irregular.WavelengthNm.Count);
    }

    [Fact]
    public void Read_RowsAndColumnsLeftAside_AreNoted()
    {
        var specimen = Assert.Single(Sample.Read(
            Sample.Keys + "slit,narrow\nnm,total (%),remark\n400,91,good\n410,92,\n", new ScanFileOptions { IgnoreUnknownColumns = true }));

        Assert.Equal(2, specimen.Notes.Length);
        Assert.Contains("slit", specimen.Notes[0], StringComparison.Ordinal);
        Assert.Contains("remark", specimen.Notes[1], StringComparison.Ordinal);
    }

    [Fact]
    public void Read_UnderACultureWithDecimalComma_GivesTheSame()
    {
        var expected = Assert.Single(Sample.Read(Percent)).Measurement;
        var culture = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        culture.NumberFormat.NumberDecimalSeparator = ",";
        culture.NumberFormat.NumberGroupSeparator = ".";
        culture.NumberFormat.NegativeSign = "~";
        culture.DateTimeFormat.DateSeparator = ".";
        culture.DateTimeFormat.TimeSeparator = "h";
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = culture;
            Assert.Equal(expected, Assert.Single(Sample.Read(Percent)).Measurement);
            Assert.Contains("wavelength 1100.5 nm", Sample.Fault(Sample.Keys + "nm,total (%)\n1090,1\n1100.5,1\n").Message, StringComparison.Ordinal);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}

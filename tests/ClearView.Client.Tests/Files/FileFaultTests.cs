using System.Text;

using ClearView.Client.Files;
using ClearView.V1;

namespace ClearView.Client.Tests.Files;

/// <summary>Every fault names line and column, what is there, and what was expected.</summary>
public class FileFaultTests
{
    [Theory]
    // Line and column count from the first line after the keys; 0 means that none is named.
    [InlineData("nm,total (%)\n400,91\n410,n/a\n", 3, 2, "\"n/a\" is not a number", "a number such as")]
    [InlineData("nm,total (%)\n400,91\n410,\n", 3, 2, "the cell is empty", "total (%)")]
    [InlineData("nm,total (%),diffuse (%)\n400,91\n410,92,1\n", 2, 3, "the cell is empty", "diffuse (%)")]
    [InlineData("nm,total (%)\n400,91,5\n410,92,5\n", 2, 3, "3 cells where the header has 2", "decimal comma needs a semicolon")]
    [InlineData("nm,total (%)\n400,NaN\n410,92\n", 2, 2, "\"NaN\" is not a number", "a number")]
    [InlineData("nm,total (%)\n400,1e999\n410,92\n", 2, 2, "\"1e999\" is too large", "a number")]
    [InlineData("nm,total (%)\n400,0x5B\n410,92\n", 2, 2, "\"0x5B\" is not a number", "a number")]
    [InlineData("nm;total (%)\n400;91,5\n410;92.5\n", 3, 2, "decimal point where the file uses a decimal comma", "91,25")]
    [InlineData("nm;total (%)\n400;1.234,5\n410;92\n", 2, 2, "\"1.234,5\" is not a number", "a number")]
    [InlineData("nm,total (%)\n400,91\n400,92\n", 3, 1, "400 nm stands a second time (first on line 9)", "each wavelength once")]
    [InlineData("nm,total (%)\n400,91\n410,92\n405,92\n", 4, 1, "405 nm is out of order", "keep rising")]
    [InlineData("nm,total (%)\n410,91\n400,92\n405,92\n", 4, 1, "405 nm is out of order", "keep falling")]
    [InlineData("nm,total (%)\n400,91\n451,92\n", 3, 1, "a gap of 51 nm", "no gap wider than 50 nm")]
    [InlineData("nm,total (%)\n199,91\n200,92\n", 2, 1, "wavelength 199 nm", "200 to 1100 nm")]
    [InlineData("nm,total (%)\n400,91\n", 2, 1, "1 wavelength(s)", "2 to 2001")]
    [InlineData("nm,total (%)\n", 1, 0, "no row follows the header", "rows of numbers")]
    [InlineData("nm,diffuse (%)\n400,1\n410,1\n", 1, 0, "no column \"total (%)\"", "total transmittance")]
    [InlineData("nm,T1,T2,T4\n400,1,1,1\n410,1,1,1\n", 1, 0, "no column \"T3\"", "T1, T2, T3 and T4")]
    [InlineData("nm,specimen\n400,1\n410,1\n", 1, 2, "\"specimen\" is a column of a file with wavelengths", "# specimen:")]
    [InlineData("nm,total (%),haze (%)\n400,1,1\n410,1,1\n", 1, 3, "\"haze (%)\" is not known", "ignore unknown columns")]
    [InlineData("nm,total (%),total (%)\n400,1,1\n410,1,1\n", 1, 3, "already stands in column 2", "each column once")]
    [InlineData("nm,total (%),Tt (%)\n400,1,1\n410,1,1\n", 1, 3, "means the same as \"total (%)\"", "each quantity once")]
    [InlineData("nm,,total (%)\n400,1,1\n410,1,1\n", 1, 2, "the header is empty", "a name above each column")]
    [InlineData("nm,total (%),T1\n400,1,1\n410,1,1\n", 1, 3, "\"T1\" stands beside total or diffuse", "either")]
    [InlineData("nm,total (%),diffuse (fraction)\n400,1,1\n410,1,1\n", 1, 3, "mixed units", "one unit")]
    [InlineData("nm,T1 (counts),T2 (counts),T3 (%),T4 (counts)\n400,1,1,1,1\n410,1,1,1,1\n", 1, 4, "mixed units", "T1 to T4 in one unit")]
    [InlineData("nm,total (%),diffuse\n400,1,1\n410,1,1\n", 1, 3, "\"diffuse\" does not say its unit", "diffuse (%)")]
    [InlineData("nm,total\n400,1\n410,1\n", 1, 2, "\"total\" does not say its unit", "the option that states it")]
    [InlineData("nm,total (ppm)\n400,1\n410,1\n", 1, 2, "the unit \"ppm\"", "percent (%) or fraction")]
    [InlineData("wavelength,total (%)\n400,1\n410,1\n", 1, 1, "\"wavelength\" does not say its unit", "wavelength (nm)")]
    [InlineData("wavelength (µm),total (%)\n0.4,1\n0.41,1\n", 1, 1, "wavelengths in \"µm\"", "wavelengths in nm")]
    [InlineData("F-1 total (%),F-2 total (%)\n1,1\n1,1\n", 1, 1, "without a wavelength column", "wavelength (nm)")]
    [InlineData("total (%),diffuse (%)\n1,1\n1,1\n", 1, 1, "without a wavelength column", "wavelength (nm)")]
    [InlineData("T1,T2,T3,T4\n100,91,1,2\n100,91,1,2\n", 1, 0, "no column names their specimens", "\"specimen\"")]
    [InlineData("nm,total (%),B total (%)\n400,1,1\n410,1,1\n", 1, 2, "names no specimen where other columns do", "or above none")]
    [InlineData("nm,A total (%),B total (%)\n400,1,1\n410,1,1\n", -6, 0, "a specimen is given for a file whose columns name", "one or the other")]
    [InlineData("hello\nworld\n", 1, 0, "no header row", "wavelength (nm)")]
    [InlineData("nm,\"total (%)\n400,1\n", 1, 0, "no header row", "wavelength (nm)")]
    [InlineData("nm,total (%)\n400,\"1\n410,1\n", 2, 2, "the quoted cell does not end", "closing quote")]
    [InlineData("nm,total (%)\n400,\"1\"2\n410,1\n", 2, 2, "text follows the closing quote", "separator")]
    [InlineData("# thickness: 38\nnm,total (%)\n400,1\n410,1\n", 1, 0, "\"thickness\" does not say its unit", "thickness_um")]
    [InlineData("# operator: p\nnm,total (%)\n400,1\n410,1\n", 1, 0, "operator is given a second time", "each key once")]
    [InlineData("# thickness_um: thin\nnm,total (%)\n400,1\n410,1\n", 1, 0, "\"thin\" is not a number", "thickness_um")]
    [InlineData("# specimen_count: 2.5\nnm,total (%)\n400,1\n410,1\n", 1, 0, "specimen_count is \"2.5\"", "a whole number")]
    [InlineData("# specimen_count: -1\nnm,total (%)\n400,1\n410,1\n", 1, 0, "specimen_count is \"-1\"", "a whole number")]
    [InlineData("# port_area_percent: small\nnm,total (%)\n400,1\n410,1\n", 1, 0, "\"small\" is not a number", "port_area_percent")]
    [InlineData("# wall_region: neck\nnm,total (%)\n400,1\n410,1\n", 1, 0, "wall_region is \"neck\"", "panel, shoulder, base, label_area")]
    [InlineData("# height_mm: 5\nnm,total (%)\n400,1\n410,1\n", 1, 0, "height_mm is given without wall_region", "wall_region")]
    [InlineData("# wall_region: base\n# along_m: 5\nnm,total (%)\n400,1\n410,1\n", 1, 0, "both a place on a web and a place on a wall", "one of them")]
    [InlineData("# transmittance_unit: fraction\nnm,total (%)\n400,1\n410,1\n", 2, 2, "the header says percent", "both the same")]
    [InlineData("# transmittance_unit: ppm\nnm,total\n400,1\n410,1\n", 1, 0, "transmittance_unit is \"ppm\"", "percent or fraction")]
    public void Read_Faults_AreNamed(string body, int line, int column, string problem, string expected)
    {
        var fault = Sample.Fault(Sample.Keys + body);

        Assert.Contains(problem, fault.Problem, StringComparison.Ordinal);
        Assert.Contains(expected, fault.Expected, StringComparison.Ordinal);
        Assert.Equal(Sample.KeyLines + line, fault.Line);
        Assert.Equal(column == 0 ? null : column, fault.Column);
        Assert.StartsWith("scan.csv, line ", fault.Message, StringComparison.Ordinal);
        Assert.Contains($"; expected {fault.Expected}.", fault.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("2026-03-02 06:15", "has no offset from UTC")]
    [InlineData("2026-03-02T06:15:00", "has no offset from UTC")]
    [InlineData("02/03/2026 06:15Z", "measured_at is \"02/03/2026 06:15Z\"")]
    [InlineData("yesterday", "measured_at is \"yesterday\"")]
    public void Read_TimesThatCouldMeanSeveral_AreRefused(string time, string problem)
    {
        var fault = Sample.Fault(Sample.Keys.Replace("2026-03-02T06:15:00Z", time, StringComparison.Ordinal) + "nm,total (%)\n400,1\n410,1\n");

        Assert.Equal(7, fault.Line);
        Assert.Contains(problem, fault.Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_MissingKeys_AreNamedAllAtOnce()
    {
        var fault = Sample.Fault("# specimen: F-1\n# uv_filter: none\nnm,total (%)\n400,1\n410,1\n");

        Assert.Equal(["instrument", "aperture_mm", "geometry", "operator", "measured_at"], fault.MissingKeys);
        Assert.Contains("instrument, aperture_mm, geometry, operator, measured_at", fault.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("\n\r\n   \n")]
    public void Read_EmptyFile_IsRefused(string text) => Assert.Contains("the file is empty", Sample.Fault(text).Message, StringComparison.Ordinal);

    [Fact]
    public void Read_OnlyComments_SaysThatThereIsNoHeader() =>
        Assert.Contains("no header row", Sample.Fault(Sample.Keys).Message, StringComparison.Ordinal);

    [Fact]
    public void Read_BytesThatAreNoText_NameTheLine()
    {
        byte[] latin1 = [.. Encoding.UTF8.GetBytes(Sample.Keys), .. "# product: "u8, 0xDC, (byte)'\n'];

        var fault = Assert.Throws<ScanFileException>(() => Sample.Read(latin1));

        Assert.Equal(Sample.KeyLines + 1, fault.Line);
        Assert.Contains("UTF-8", fault.Expected, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_BinaryFile_IsRefused() => Assert.Contains(
        "control characters",
        Assert.Throws<ScanFileException>(() => Sample.Read([0x50, 0x4B, 0x03, 0x04, 0x00, 0x00])).Message,
        StringComparison.Ordinal);

    [Fact]
    public void Read_WideFormWithDiffuseAlone_NamesTheSpecimen() => Assert.Contains(
        "no column \"B total (%)\"",
        Sample.Fault("nm,A total (%),A diffuse (%),B diffuse (%)\n400,1,1,1\n410,1,1,1\n" + Sample.Keys.Replace("# specimen: F-1\n", "", StringComparison.Ordinal)).Problem,
        StringComparison.Ordinal);

    [Fact]
    public void Read_MissingFile_NamesIt()
    {
        var fault = Assert.Throws<ScanFileException>(() => ScanFileReader.Read("no-such-file.csv", ScanFileOptions.None));

        Assert.StartsWith("no-such-file.csv: ", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_OptionAgainstHeader_IsRefused() => Assert.Contains(
        "the header says percent where a key or option says fraction",
        Sample.Fault(Sample.Keys + "nm,total (%)\n400,1\n410,1\n", new ScanFileOptions { TransmittanceUnit = TransmittanceUnit.Fraction }).Message,
        StringComparison.Ordinal);

    [Fact]
    public void Find_FolderWithoutScans_IsRefused()
    {
        var folder = Directory.CreateTempSubdirectory("clearview-empty-");
        try
        {
            Assert.Contains("holds no scan file", Assert.Throws<ScanFileException>(() => ScanFolder.Find(folder.FullName)).Message, StringComparison.Ordinal);
        }
        finally
        {
            folder.Delete();
        }
    }
}

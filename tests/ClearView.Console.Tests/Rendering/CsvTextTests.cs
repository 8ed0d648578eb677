using ClearView.Console.Rendering;

namespace ClearView.Console.Tests.Rendering;

/// <summary>Texts of somebody else's in cells of CSV.</summary>
public sealed class CsvTextTests
{
    // First characters that the OWASP guidance on CSV injection names, the full-width forms among them; from memory.
    [Theory]
    [InlineData("=1+2", "'=1+2")]
    [InlineData("+1", "'+1")]
    [InlineData("-1+1", "'-1+1")]
    [InlineData("@SUM(A1)", "'@SUM(A1)")]
    [InlineData("\t=1", "\"'\t=1\"")]
    [InlineData("\r=1", "\"'\r=1\"")]
    [InlineData("  =1", "'  =1")]
    [InlineData("＝1", "'＝1")]
    [InlineData("=cmd|' /C calc'!A0", "'=cmd|' /C calc'!A0")]
    [InlineData("=HYPERLINK(\"http://a\",\"b\")", "\"'=HYPERLINK(\"\"http://a\"\",\"\"b\"\")\"")]
    public void Cell_TextThatBeginsLikeAFormula_IsMarkedAsText(string text, string expected) => Assert.Equal(expected, CsvText.Cell(text));

    // RFC 4180, section 2, rules 5 to 7.
    [Theory]
    [InlineData("", "")]
    [InlineData("R-14", "R-14")]
    [InlineData("clear lidding, 38", "\"clear lidding, 38\"")]
    [InlineData("38 \"thin\"", "\"38 \"\"thin\"\"\"")]
    [InlineData("a\nb", "\"a\nb\"")]
    public void Cell_AnyOtherText_IsQuotedWhereItMustBe(string text, string expected) => Assert.Equal(expected, CsvText.Cell(text));

    [Theory]
    [InlineData(-0.21, "-0.21")]
    [InlineData(0.1 + 0.2, "0.30000000000000004")]
    [InlineData(null, "")]
    public void Cell_Number_StaysANumber(double? number, string expected) => Assert.Equal(expected, CsvText.Cell(number));
}

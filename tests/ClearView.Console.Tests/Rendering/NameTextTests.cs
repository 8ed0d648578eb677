using ClearView.Console.Rendering;

namespace ClearView.Console.Tests.Rendering;

public class NameTextTests
{
    [Theory]
    [InlineData("film.csv", "film.csv")]
    [InlineData("film-semicolon-decimal-comma.csv", "film-semicolon-decimal-\ncomma.csv")]
    [InlineData("abcdefghijklmnopqrstuvwxyz", "abcdefghijklmnopqrstuvwx\nyz")]
    [InlineData("clear lidding film of line three.csv", "clear lidding film of\nline three.csv")]
    public void Fold_BreaksWhereAReaderWould(string name, string expected) => Assert.Equal(expected, NameText.Fold(name, 24));

    [Theory]
    [InlineData(0, "")]
    [InlineData(1, "████████")]
    [InlineData(0.5, "████")]
    [InlineData(0.07, "▌")]
    [InlineData(1.2, "████████")]
    public void Bar_IsAsLongAsTheShare(double fraction, string expected) => Assert.Equal(expected, BarText.Of(fraction, 8));
}

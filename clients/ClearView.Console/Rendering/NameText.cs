using System.Text;

namespace ClearView.Console.Rendering;

/// <summary>Folds long names at places where a reader would.</summary>
internal static class NameText
{
    private const int WideScreen = 100;

    /// <summary>A name on as many lines as it takes, broken after "-", "_", "/", "\" or a blank, and within a word only where one is too long.</summary>
    /// <param name="name">The name.</param>
    /// <param name="width">Columns of a line.</param>
    public static string Fold(string name, int width)
    {
        var folded = new StringBuilder();
        var rest = name;
        while (rest.Length > width)
        {
            var at = rest.LastIndexOfAny(['-', '_', '/', '\\', ' '], width - 1) + 1;
            var end = at > 0 ? at : width;
            folded.Append(rest.AsSpan(0, end).TrimEnd()).Append('\n');
            rest = rest[end..];
        }
        return folded.Append(rest).ToString();
    }

    /// <summary>A file's name for a column of a table.</summary>
    public static string File(Screen screen, string path) => Fold(Path.GetFileName(path), screen.Columns >= WideScreen ? 24 : 16);

    /// <summary>A specimen's or roll's name for a column of a table.</summary>
    public static string Of(Screen screen, string name) => Fold(name, screen.Columns >= WideScreen ? 20 : 12);

    /// <summary>A reading's identifier, which takes two lines on a narrow screen.</summary>
    public static string Identifier(Screen screen, string id) => screen.Columns >= WideScreen ? id : Fold(id, 20);
}

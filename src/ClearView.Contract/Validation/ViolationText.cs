namespace ClearView.Contract.Validation;

/// <summary>Texts of fields at fault, which quote what was sent, cut to a length that a message of many carries.</summary>
public static class ViolationText
{
    /// <summary>Most characters of a field or a description.</summary>
    public const int MostCharacters = 400;

    /// <summary>Cuts a text that is longer than allowed, and marks the cut with an ellipsis.</summary>
    /// <param name="text">The text.</param>
    /// <param name="mostCharacters">Most characters, 2 at least.</param>
    public static string Cut(string text, int mostCharacters = MostCharacters)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (text.Length <= mostCharacters)
        {
            return text;
        }

        // Never between the halves of a surrogate pair.
        int length = char.IsHighSurrogate(text[mostCharacters - 2]) ? mostCharacters - 2 : mostCharacters - 1;
        return text[..length] + "…";
    }
}

using System.Diagnostics.CodeAnalysis;

using ClearView.Contract.Validation;
using ClearView.V1;

namespace ClearView.Server.Mapping;

/// <summary>Identifiers of readings on the wire.</summary>
internal static class ReadingIds
{
    private const string Field = "reading_id";
    private const int TextLength = 36;

    /// <summary>Reads an identifier.</summary>
    /// <param name="text">The text on the wire.</param>
    /// <param name="id">The identifier, where the text is one.</param>
    /// <param name="violation">What is wrong, where it is not.</param>
    /// <returns>Whether the text is an identifier.</returns>
    public static bool TryRead(string text, out Guid id, [NotNullWhen(false)] out FieldViolation? violation)
    {
        violation = null;

        // The length is checked, since parsing alone would pass over blanks around the identifier.
        if (text.Length != TextLength || !Guid.TryParseExact(text, "D", out id))
        {
            id = Guid.Empty;
            var shown = text.Length == 0 ? "is missing" : $"\"{text}\"";
            violation = Violation($"{shown}; expected a UUID in its 36-character form.");
        }
        else if (id == Guid.Empty)
        {
            violation = Violation("is all zeros; expected a UUID of its own for each reading.");
        }

        return violation is null;
    }

    /// <summary>A text that came as an identifier, to give it back with a refusal: as it came, or cut where it can be none by far.</summary>
    public static string Shown(string text) => ViolationText.Cut(text, 2 * TextLength);

    /// <summary>The identifier in its 36-character form.</summary>
    public static string Write(Guid id) => id.ToString("D");

    private static FieldViolation Violation(string description) => new() { Field = Field, Description = ViolationText.Cut(description) };
}

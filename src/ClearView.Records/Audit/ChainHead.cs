using System.Globalization;

namespace ClearView.Records.Audit;

/// <summary>The newest link of a chain at some moment. Noted elsewhere, it proves later that nothing before it was changed or cut off.</summary>
/// <param name="Chain">Number of the chain, from 1.</param>
/// <param name="Position">Place of the link in its chain, from 1.</param>
/// <param name="Sha256">Hash of the link, 64 lower-case hexadecimal digits.</param>
public readonly record struct ChainHead(long Chain, long Position, string Sha256)
{
    private const int HexDigits = 64;

    /// <summary>Reads "CHAIN:POSITION:HASH".</summary>
    /// <param name="text">The text.</param>
    /// <param name="head">The head, where it is one.</param>
    /// <returns>Whether it is one.</returns>
    public static bool TryParse(string text, out ChainHead head)
    {
        ArgumentNullException.ThrowIfNull(text);
        head = default;
        var parts = text.Trim().Split(':');
        if (parts.Length != 3
            || !long.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out var chain)
            || !long.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var position)
            || chain < 1 || position < 1 || parts[2].Length != HexDigits || !parts[2].All(char.IsAsciiHexDigit))
        {
            return false;
        }

        head = new ChainHead(chain, position, parts[2].ToLowerInvariant());
        return true;
    }

    /// <summary>The head as "CHAIN:POSITION:HASH".</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Chain}:{Position}:{Sha256}");
}

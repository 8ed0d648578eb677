using System.Globalization;
using System.Runtime.CompilerServices;

namespace ClearView.Contract.Validation;

/// <summary>The path of a field in its parts, put together only where the field is at fault.</summary>
/// <remarks>
/// An interpolated string such as <c>$"{path}.aperture_mm"</c> becomes one without a string being made. It holds up to four parts,
/// which any path of a rule has; further ones are joined at once.
/// </remarks>
[InterpolatedStringHandler]
public struct FieldPath
{
    private string? _first;
    private string? _second;
    private string? _third;
    private string? _fourth;

    /// <summary>Starts a path from an interpolated string.</summary>
    /// <param name="literalLength">Characters of its literals; what comes is kept as it is, so that they do not matter.</param>
    /// <param name="formattedCount">Number of its holes, likewise.</param>
    public FieldPath(int literalLength, int formattedCount)
    {
        _ = literalLength;
        _ = formattedCount;
    }

    /// <summary>A path that is known as a whole.</summary>
    /// <param name="path">The path.</param>
    public static implicit operator FieldPath(string path) => new(0, 0) { _first = path };

    /// <summary>A path that is known as a whole.</summary>
    /// <param name="path">The path.</param>
    public static FieldPath FromString(string path) => path;

    /// <summary>Adds a literal.</summary>
    /// <param name="part">The literal.</param>
    public void AppendLiteral(string part)
    {
        if (_first is null)
        {
            _first = part;
        }
        else if (_second is null)
        {
            _second = part;
        }
        else if (_third is null)
        {
            _third = part;
        }
        else
        {
            _fourth += part;
        }
    }

    /// <summary>Adds a path that the field lies in, or the name of a field.</summary>
    /// <param name="part">The path or the name.</param>
    public void AppendFormatted(string part) => AppendLiteral(part);

    /// <summary>Adds a position in a list.</summary>
    /// <param name="position">The position, from 0.</param>
    public void AppendFormatted(int position) => AppendLiteral(position.ToString(CultureInfo.InvariantCulture));

    /// <summary>The path, for example "measurement.conditions.aperture_mm".</summary>
    public override readonly string ToString() => string.Concat(_first, _second, _third, _fourth);
}

using System.Text;

namespace ClearView.Console.Rendering;

/// <summary>Drops the blanks that tables leave at the end of lines, so that piped output is clean.</summary>
/// <param name="target">Where the lines go.</param>
internal sealed class LineTrimmingWriter(TextWriter target) : TextWriter
{
    private readonly StringBuilder _blanks = new();

    /// <inheritdoc/>
    public override Encoding Encoding => target.Encoding;

    /// <inheritdoc/>
    public override void Write(char value)
    {
        switch (value)
        {
            case ' ':
                _blanks.Append(value);
                return;
            case '\r':
                return;
            case '\n':
                _blanks.Clear();
                target.Write('\n');
                return;
            default:
                target.Write(_blanks);
                _blanks.Clear();
                target.Write(value);
                return;
        }
    }

    /// <inheritdoc/>
    public override void Flush() => target.Flush();
}

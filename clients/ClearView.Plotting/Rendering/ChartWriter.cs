using ClearView.Plotting.Model;

namespace ClearView.Plotting.Rendering;

/// <summary>Writes charts to files.</summary>
public static class ChartWriter
{
    /// <summary>Writes a chart; an existing file of that name is replaced.</summary>
    /// <param name="chart">The chart.</param>
    /// <param name="folder">Where to; created when it does not exist.</param>
    /// <param name="name">Name without extension; characters that a file name cannot hold become hyphens.</param>
    /// <param name="formats">The formats, each a file.</param>
    /// <returns>The paths that were written.</returns>
    public static IReadOnlyList<string> Write(ChartModel chart, string folder, string name, IEnumerable<ChartFormat> formats)
    {
        ArgumentNullException.ThrowIfNull(formats);
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        Directory.CreateDirectory(folder);
        var written = new List<string>();
        foreach (ChartFormat format in formats)
        {
            (string extension, byte[] content) = format switch
            {
                ChartFormat.Png => ("png", ChartRenderer.ToPng(chart)),
                ChartFormat.Svg => ("svg", ChartRenderer.ToSvg(chart)),
                ChartFormat.Pdf => ("pdf", ChartRenderer.ToPdf(chart)),
                _ => throw new ArgumentOutOfRangeException(nameof(formats), format, "This format is unknown."),
            };
            string path = Path.Combine(folder, $"{SafeName(name)}.{extension}");
            File.WriteAllBytes(path, content);
            written.Add(path);
        }

        return written;
    }

    internal static string SafeName(string name) =>
        string.Concat(name.Select(c => char.IsAsciiLetterOrDigit(c) || c is '.' or '-' or '_' ? c : '-')).TrimStart('.');
}

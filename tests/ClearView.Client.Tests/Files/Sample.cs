using System.Text;

using ClearView.Client.Files;

namespace ClearView.Client.Tests.Files;

/// <summary>Sample files, and files made of text.</summary>
internal static class Sample
{
    /// <summary>All that a file must say beside its numbers.</summary>
    public const string Keys =
        "# specimen: F-1\n# instrument: i\n# aperture_mm: 25\n# uv_filter: none\n# geometry: 0:d\n# operator: o\n# measured_at: 2026-03-02T06:15:00Z\n";

    /// <summary>Lines that <see cref="Keys"/> takes, so that the text after it starts on line KeyLines + 1.</summary>
    public const int KeyLines = 7;

    public static string Path(string name) => System.IO.Path.Combine(AppContext.BaseDirectory, "Samples", name);

    public static IReadOnlyList<ScannedSpecimen> Read(string text, ScanFileOptions? options = null) =>
        Read(Encoding.UTF8.GetBytes(text), options);

    public static IReadOnlyList<ScannedSpecimen> Read(byte[] bytes, ScanFileOptions? options = null)
    {
        using var stream = new MemoryStream(bytes);
        return ScanFileReader.Read(stream, "scan.csv", options ?? ScanFileOptions.None);
    }

    public static ScanFileException Fault(string text, ScanFileOptions? options = null) =>
        Assert.Throws<ScanFileException>(() => Read(text, options));
}

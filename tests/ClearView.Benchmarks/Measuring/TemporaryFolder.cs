namespace ClearView.Benchmarks.Measuring;

/// <summary>A folder that is gone afterwards.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    /// <summary>The folder.</summary>
    public string Path { get; } = Directory.CreateTempSubdirectory("clearview-load-").FullName;

    /// <summary>A file in it.</summary>
    public string File(string name) => System.IO.Path.Combine(Path, name);

    public void Dispose() => Directory.Delete(Path, recursive: true);
}

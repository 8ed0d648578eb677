using System.Collections.Immutable;

namespace ClearView.EndToEnd.Tests.Servers;

/// <summary>How a server of the tests is started.</summary>
/// <param name="Store">Its store: a file or a database.</param>
internal sealed record ServerSetUp(string Store)
{
    /// <summary>Address and port; port 0 takes a free one.</summary>
    public string Listen { get; init; } = "127.0.0.1:0";

    /// <summary>Further flags.</summary>
    public ImmutableArray<string> Flags { get; init; } = [];

    /// <summary>A program, with its arguments, that becomes the server by exec.</summary>
    public ImmutableArray<string> Wrapper { get; init; } = [];

    /// <summary>Variables of the environment.</summary>
    public ImmutableDictionary<string, string> Environment { get; init; } = ImmutableDictionary<string, string>.Empty;

    /// <summary>The folder that the server is started in: that of its store file.</summary>
    public string WorkingFolder => Store.StartsWith("postgres:", StringComparison.Ordinal) ? Path.GetTempPath() : Path.GetDirectoryName(Store)!;
}

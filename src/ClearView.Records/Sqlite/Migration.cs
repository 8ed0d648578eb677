using System.Collections.Immutable;
using System.Globalization;

namespace ClearView.Records.Sqlite;

/// <summary>One step of the schema.</summary>
/// <param name="Version">Version of the schema after this step; steps count from 1 without gaps.</param>
/// <param name="Name">Name of its file.</param>
/// <param name="Sql">Its statements.</param>
internal sealed record Migration(int Version, string Name, string Sql)
{
    private const string Folder = "Migrations/";

    /// <summary>The steps that this version of the software knows, in order.</summary>
    public static ImmutableArray<Migration> All { get; } = Load();

    private static ImmutableArray<Migration> Load()
    {
        var assembly = typeof(Migration).Assembly;
        return
        [
            .. assembly.GetManifestResourceNames()
                .Where(name => name.StartsWith(Folder, StringComparison.Ordinal))
                .Order(StringComparer.Ordinal)
                .Select(name =>
                {
                    using var reader = new StreamReader(assembly.GetManifestResourceStream(name)!);
                    var file = name[Folder.Length..];
                    return new Migration(int.Parse(file.AsSpan(0, 4), CultureInfo.InvariantCulture), file, reader.ReadToEnd());
                }),
        ];
    }
}

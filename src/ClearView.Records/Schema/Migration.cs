using System.Collections.Immutable;
using System.Globalization;

namespace ClearView.Records.Schema;

/// <summary>One step of a schema.</summary>
/// <param name="Version">Version of the schema after this step; steps count from 1 without gaps.</param>
/// <param name="Name">Name of its file.</param>
/// <param name="Sql">Its statements.</param>
internal sealed record Migration(int Version, string Name, string Sql)
{
    /// <summary>The steps of the SQLite engine that this version of the software knows, in order.</summary>
    public static ImmutableArray<Migration> OfSqlite { get; } = Load("Sqlite/");

    /// <summary>The steps of the PostgreSQL engine that this version of the software knows, in order.</summary>
    public static ImmutableArray<Migration> OfPostgres { get; } = Load("Postgres/");

    private static ImmutableArray<Migration> Load(string folder)
    {
        var assembly = typeof(Migration).Assembly;
        return
        [
            .. assembly.GetManifestResourceNames()
                .Where(name => name.StartsWith(folder, StringComparison.Ordinal))
                .Order(StringComparer.Ordinal)
                .Select(name =>
                {
                    using var reader = new StreamReader(assembly.GetManifestResourceStream(name)!);
                    var file = name[folder.Length..];
                    return new Migration(int.Parse(file.AsSpan(0, 4), CultureInfo.InvariantCulture), file, reader.ReadToEnd());
                }),
        ];
    }
}

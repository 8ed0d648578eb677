using ClearView.EndToEnd.Tests.Lines;
using ClearView.V1;

using Microsoft.Data.Sqlite;

namespace ClearView.EndToEnd.Tests.Outboxes;

/// <summary>Numbered readings of a line, and how they lie in a store file.</summary>
internal static class LineReadings
{
    /// <summary>The readings of a line, in their order.</summary>
    public static PostReadingRequest[] Make(string line, int count) => [.. new ReadingMaker(line, seed: count).Next(count)];

    /// <summary>Checks that a store holds readings once each, those of each line in their order, and that it is sound.</summary>
    public static void AssertStored(string store, IReadOnlyCollection<PostReadingRequest> posts)
    {
        using var connection = new SqliteConnection($"Data Source={store};Mode=ReadOnly;Pooling=False");
        connection.Open();
        using (var check = new SqliteCommand("PRAGMA integrity_check", connection))
        {
            Assert.Equal("ok", check.ExecuteScalar());
        }

        using var list = new SqliteCommand("SELECT id, line, specimen FROM reading ORDER BY sequence", connection);
        using var rows = list.ExecuteReader();
        List<(string Id, string Line, string Specimen)> stored = [];
        while (rows.Read())
        {
            stored.Add((new Guid((byte[])rows[0], bigEndian: true).ToString(), rows.GetString(1), rows.GetString(2)));
        }

        Assert.Equal(posts.Select(post => post.ReadingId).Order(StringComparer.Ordinal), stored.Select(one => one.Id).Order(StringComparer.Ordinal));
        Assert.All(stored.GroupBy(one => one.Line), line => Assert.Equal(line.Select(one => one.Specimen).Order(StringComparer.Ordinal), line.Select(one => one.Specimen)));
    }
}

using ClearView.Records.Model;
using ClearView.Records.Sql;
using ClearView.Records.Tests.Behaviour;

namespace ClearView.Records.Tests.Sqlite;

public sealed class QueryPlanTests : IAsyncDisposable
{
    private readonly TemporarySqliteStore _temporary = new();

    public ValueTask DisposeAsync() => _temporary.DisposeAsync();

    [Fact]
    public async Task List_EveryFilter_HasAnIndexThatYieldsTheOrder()
    {
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(1), TestContext.Current.CancellationToken);
        using var connection = _temporary.Connect();
        var after = new ReadingPosition(TemporaryStore.Noon, TemporaryStore.Id(0));
        (ReadingQuery Query, string Index)[] cases =
        [
            (new ReadingQuery(), "reading_by_time"),
            (new ReadingQuery { After = after, MeasuredFrom = TemporaryStore.Noon }, "reading_by_time"),
            (new ReadingQuery { Line = "a", After = after }, "reading_by_line"),
            (new ReadingQuery { Product = "a", Order = ReadingOrder.NewestFirst, After = after }, "reading_by_product"),
            (new ReadingQuery { Lot = "a", MeasuredBefore = TemporaryStore.Noon }, "reading_by_lot"),
            (new ReadingQuery { Roll = "a" }, "reading_by_roll"),
            (new ReadingQuery { Specimen = "a" }, "reading_by_specimen"),
        ];

        Assert.All(cases, item =>
        {
            using var command = ReadingRows.ListCommand(connection, item.Query, _temporary.Database);
            command.CommandText = "EXPLAIN QUERY PLAN " + command.CommandText;
            using var rows = command.ExecuteReader();
            List<string> plan = [];
            while (rows.Read())
            {
                plan.Add(rows.GetString(3));
            }

            // The reading first; behind it what is looked up for each row, and no sorting.
            Assert.Contains("INDEX " + item.Index + (item.Query == new ReadingQuery() ? "" : " ("), plan[0], StringComparison.Ordinal);
            Assert.All(plan.Skip(1), step => Assert.Matches("^(CORRELATED SCALAR SUBQUERY|SEARCH )", step));
        });
    }

    [Theory]
    [InlineData(null)]
    [InlineData("a")]
    public async Task ListRecorded_WalksTheKeyFromItsPlace(string? line)
    {
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(1), TestContext.Current.CancellationToken);
        using var connection = _temporary.Connect();

        using var command = ReadingRows.RecordedCommand(connection, new RecordedQuery { After = 5, Line = line }, through: 10, _temporary.Database);
        command.CommandText = "EXPLAIN QUERY PLAN " + command.CommandText;
        using var rows = command.ExecuteReader();

        Assert.True(rows.Read());
        Assert.Equal("SEARCH reading USING INTEGER PRIMARY KEY (rowid>? AND rowid<?)", rows.GetString(3));
    }
}

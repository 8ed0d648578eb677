using ClearView.Records.Model;
using ClearView.Records.Postgres;
using ClearView.Records.Tests.Behaviour;

using Npgsql;

namespace ClearView.Records.Tests.Postgres;

/// <summary>A store in a database of its own.</summary>
internal sealed class TemporaryPostgresStore(PostgresCluster cluster) : TemporaryStore
{
    /// <summary>Names the database.</summary>
    public string ConnectionString { get; } = cluster.CreateDatabase();

    public override async Task<IStore> OpenAnotherAsync() => await PostgresStore.OpenAsync(ConnectionString, Clock);

    public override object? Scalar(string sql)
    {
        using var connection = new NpgsqlConnection(ConnectionString + ";Search Path=clearview;Pooling=false");
        connection.Open();
#pragma warning disable CA2100 // Statements are constants of the tests.
        using var command = new NpgsqlCommand(sql, connection);
#pragma warning restore CA2100
        return command.ExecuteScalar();
    }

    public override void AssertIntact()
    {
        // Every reading has its identifier and every identifier its reading, with the same sequence.
        Assert.Equal(0L, Scalar("SELECT count(*) FROM reading FULL JOIN reading_id USING (id, line, measured_at, sequence) WHERE reading.recorded_at IS NULL OR reading_id.id IS NULL"));
        Assert.Equal(0L, Scalar("SELECT count(*) FROM series_value LEFT JOIN reading USING (measured_at, sequence) WHERE reading.id IS NULL"));
    }

    public override void AssertClosed() =>
        Assert.Equal(0L, Scalar("SELECT count(*) FROM pg_stat_activity WHERE datname = current_database() AND application_name = 'ClearView' AND state <> 'idle'"));

    protected override ValueTask RemoveAsync() => ValueTask.CompletedTask;
}

using System.Collections.Immutable;

using ClearView.Records.Exchange;
using ClearView.Records.Model;
using ClearView.Records.Schema;
using ClearView.Records.Sql;
using ClearView.Records.Sqlite;
using ClearView.Records.Tests.Behaviour;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Tests.Sqlite;

/// <summary>A store on a file of its own.</summary>
internal sealed class TemporarySqliteStore : TemporaryStore
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-records-");

    public string File => Path.Combine(_folder.FullName, "readings.db");

    /// <summary>The database behind the open store.</summary>
    public IStoreDatabase Database => ((IStoreBehind)Opened).Database;

    public override Task<IStore> OpenAnotherAsync() => Task.FromResult<IStore>(SqliteStore.Open(File, Clock));

    public async Task<IReadingStore> ReopenAsync(ImmutableArray<Migration> migrations)
    {
        await CloseAsync();
        Opened = SqliteStore.Open(File, Clock, migrations);
        return Opened.Readings;
    }

    public SqliteConnection Connect()
    {
        var connection = new SqliteConnection($"Data Source={File};Pooling=False");
        connection.Open();
        return connection;
    }

    public override object? Scalar(string sql)
    {
        using var connection = Connect();
        using var command = connection.CreateCommand();
#pragma warning disable CA2100 // Statements are constants of the tests.
        command.CommandText = sql;
#pragma warning restore CA2100
        return command.ExecuteScalar();
    }

    public override void AssertIntact() => Assert.Equal("ok", Scalar("PRAGMA integrity_check"));

    public override void AssertClosed() => Assert.False(System.IO.File.Exists(File + "-wal"), "the log was not folded into the file");

    protected override ValueTask RemoveAsync()
    {
        _folder.Delete(recursive: true);
        return ValueTask.CompletedTask;
    }
}

using ClearView.Records.Audit;
using ClearView.Records.Sql;

using Npgsql;

namespace ClearView.Records.Postgres;

/// <summary>The chain that one session writes: it holds the chain's lock as long as it lives, and goes on behind its last link.</summary>
internal sealed class ServerChain
{
    private readonly NpgsqlConnection _connection;
    private ChainPen _committed;
    private ChainPen _pen;

    private ServerChain(NpgsqlConnection connection, ChainPen pen)
    {
        _connection = connection;
        _committed = pen;
        _pen = pen.Clone();
    }

    /// <summary>Takes the first chain that nobody writes, or begins a new one.</summary>
    public static async Task<ServerChain> ClaimAsync(NpgsqlConnection connection)
    {
        for (var chain = 1; ; chain++)
        {
            var claim = new NpgsqlCommand("SELECT pg_try_advisory_lock(@chains, @chain)", connection);
            await using var ofCall = claim.ConfigureAwait(false);
            claim.Parameters.AddWithValue("chains", AdvisoryLocks.Chains);
            claim.Parameters.AddWithValue("chain", chain);
            if (await claim.ExecuteScalarAsync().ConfigureAwait(false) is true)
            {
                return new ServerChain(connection, new ChainPen(chain, LinkRows.Head(connection, transaction: null, chain), linksSinceHeads: null));
            }
        }
    }

    /// <summary>Goes back to the last link that was committed.</summary>
    public void Begin() => _pen = _committed.Clone();

    /// <summary>The links of records, in their order, and of the heads of other chains where they are due.</summary>
    public IReadOnlyList<Link> Next(IEnumerable<(RecordKey Record, byte[] Hash)> records, NpgsqlTransaction transaction)
    {
        List<Link> links = [];
        foreach (var (record, hash) in records)
        {
            if (_pen.AreHeadsDue && _pen.NextHeads(LinkRows.Heads(_connection, transaction)) is { } heads)
            {
                links.Add(heads);
            }

            links.Add(_pen.Next(record, hash));
        }

        return links;
    }

    /// <summary>What was made since <see cref="Begin"/> is committed.</summary>
    public void Commit() => _committed = _pen;
}

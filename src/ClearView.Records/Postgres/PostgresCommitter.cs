using ClearView.Records.Sql;
using ClearView.Records.Writing;

using Npgsql;

namespace ClearView.Records.Postgres;

/// <summary>Writes batches through one connection, and opens another when it is lost.</summary>
/// <param name="source">Gives connections.</param>
/// <param name="database">Finds readings.</param>
/// <param name="own">Takes the places in the order of recording that are written.</param>
/// <param name="clock">The clock of the time of recording.</param>
internal sealed class PostgresCommitter(NpgsqlDataSource source, IStoreDatabase database, OwnSequences own, TimeProvider clock) : IBatchCommitter<IPromise>
{
    private const int MostConflicts = 10;

    private WriterSession? _session;

    /// <inheritdoc/>
    public async Task CommitAsync(IReadOnlyList<IPromise> batch)
    {
        for (var attempt = 1; ; attempt++)
        {
            if (_session is { IsOpen: false })
            {
                await ForgetAsync().ConfigureAwait(false);
            }

            var isReused = _session is not null;
            try
            {
                _session ??= await WriterSession.OpenAsync(source, database, own).ConfigureAwait(false);
                await _session.CommitAsync(batch, clock.GetUtcNow().ToUniversalTime()).ConfigureAwait(false);
                own.Keep();
                return;
            }
            catch (Exception caught)
            {
                own.Forget();

                // On a connection that broke by itself, commands end with faults of their own that say nothing of what was written.
                var isLost = _session is { IsOpen: false } && IsOfOneWrite(caught);
                var error = isLost ? new NpgsqlException("The connection to the database was lost.", caught) : caught;
                var isInDoubt = _session?.IsInDoubt == true;
                if (!TryGoOn(error))
                {
                    await ForgetAsync().ConfigureAwait(false);
                }

                // A connection that died while nothing was written shows it at the next write, which a new one may serve.
                var isStale = isReused && attempt == 1 && PostgresErrors.IsOfConnection(error);
                var mayRepeat = isStale || (PostgresErrors.IsConflict(error) && attempt < MostConflicts);
                if (isInDoubt || !mayRepeat)
                {
                    if (isLost)
                    {
                        throw error;
                    }

                    throw;
                }
            }
        }
    }

    /// <inheritdoc/>
    public bool IsOfOneWrite(Exception error) => PostgresErrors.IsOfOneWrite(error);

    /// <inheritdoc/>
    public bool ShowsInReads(Exception error) => PostgresErrors.IsOfConnection(error);

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => ForgetAsync();

    // A session that is still good keeps its locks: what awaits its signals stays unlisted until it has them. One that somebody else
    // wrote the chain of has lost them.
    private bool TryGoOn(Exception error)
    {
        if (_session is not { IsOpen: true, IsInDoubt: false } session || PostgresErrors.IsOfConnection(error) || PostgresErrors.IsOfChain(error))
        {
            return false;
        }

        if (PostgresErrors.IsOfMissingPart(error))
        {
            session.ForgetMonths();
        }

        return true;
    }

    private async ValueTask ForgetAsync()
    {
        if (_session is { } session)
        {
            _session = null;
            await session.DisposeAsync().ConfigureAwait(false);
        }
    }
}

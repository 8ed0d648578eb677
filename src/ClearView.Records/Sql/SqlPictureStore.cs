using ClearView.Records.Model;

namespace ClearView.Records.Sql;

/// <summary>Pictures in the table of either engine.</summary>
internal sealed class SqlPictureStore(IStoreDatabase database) : IPictureStore
{
    /// <inheritdoc/>
    public Task<byte[]?> FindAsync(string line, long sequence, CancellationToken cancellationToken) =>
        database.ReadAsync(connection => PictureRows.Find(connection, transaction: null, line, sequence), cancellationToken);
}

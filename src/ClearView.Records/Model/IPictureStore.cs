namespace ClearView.Records.Model;

/// <summary>Gives the pictures of specimens that were stored with readings.</summary>
/// <remarks>Safe for concurrent use. After disposal every call throws <see cref="ObjectDisposedException"/>.</remarks>
public interface IPictureStore
{
    /// <summary>The picture of a reading, bit for bit.</summary>
    /// <param name="line">Line of the reading; its pictures stand together.</param>
    /// <param name="sequence">Place of the reading in the order of recording.</param>
    /// <param name="cancellationToken">Stops the search.</param>
    /// <returns>The picture, or <see langword="null"/>.</returns>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    Task<byte[]?> FindAsync(string line, long sequence, CancellationToken cancellationToken);
}

namespace ClearView.Records.Model;

/// <summary>Gives the values of a measurand over time, without opening readings.</summary>
/// <remarks>Safe for concurrent use. After disposal every call throws <see cref="ObjectDisposedException"/>.</remarks>
public interface ISeriesStore
{
    /// <summary>Reads a series by time of measurement, readings of equal time in the order of recording.</summary>
    /// <param name="query">Which values.</param>
    /// <param name="visit">Takes each value, on another thread than the caller's, one after the other.</param>
    /// <param name="cancellationToken">Stops the reading.</param>
    /// <returns>The number of values. They are those of one moment: what is recorded meanwhile is left out.</returns>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    Task<long> ReadAsync(SeriesQuery query, SeriesRowVisitor visit, CancellationToken cancellationToken);
}

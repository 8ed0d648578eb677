using ClearView.V1;

namespace ClearView.Client.Outbox;

/// <summary>Sends readings of one line to a server.</summary>
public interface IReadingSender
{
    /// <summary>Sends readings in their order. Called for several lines at once.</summary>
    /// <param name="readings">The readings, at least one.</param>
    /// <param name="cancellationToken">Stops sending; what is known by then is still returned.</param>
    /// <returns>
    /// One result per reading in their order, but none behind the first that has to be tried again: those were not stored before it.
    /// Faults of the server are results, not exceptions.
    /// </returns>
    Task<IReadOnlyList<SendResult>> SendAsync(IReadOnlyList<PostReadingRequest> readings, CancellationToken cancellationToken);
}

using ClearView.V1;

namespace ClearView.Client;

/// <content>Verdicts on measurements brought along, and on stored readings.</content>
public sealed partial class ClearViewClient
{
    /// <summary>Judges the mean of several specimens, or a single one, under a specification that is brought along; nothing is stored.</summary>
    /// <param name="measurements">The measurements, 1 to 200.</param>
    /// <param name="specification">The specification; its method is built in or stored.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <exception cref="ClearViewCallException">The server refused or could not be reached.</exception>
    public Task<JudgeSpecimensResponse> JudgeSpecimensAsync(
        IEnumerable<Measurement> measurements, Specification specification, CancellationToken cancellationToken = default)
    {
        var request = new JudgeSpecimensRequest { Measurements = { measurements }, Specification = specification };
        return CallAsync(call => _judgements.JudgeSpecimensAsync(request, call), cancellationToken);
    }

    /// <summary>The same under a specification that the server has under a name.</summary>
    /// <param name="measurements">The measurements, 1 to 200.</param>
    /// <param name="specification">The specification's name, and its version or 0 for the newest.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <exception cref="ClearViewCallException">The server refused, has no such specification, or could not be reached.</exception>
    public Task<JudgeSpecimensResponse> JudgeSpecimensAsync(
        IEnumerable<Measurement> measurements, SpecificationName specification, CancellationToken cancellationToken = default)
    {
        var request = new JudgeSpecimensRequest { Measurements = { measurements }, SpecificationName = specification };
        return CallAsync(call => _judgements.JudgeSpecimensAsync(request, call), cancellationToken);
    }

    /// <summary>Judges stored readings under any version of a specification; nothing is stored.</summary>
    /// <param name="request">The specification, the readings, and what is judged together.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <returns>Readings, or groups of them, in the order of measurement, as the server judges them.</returns>
    /// <exception cref="ClearViewCallException">
    /// The server refused, has no such specification, or could not be reached; also after part of the answer: begin anew then.
    /// </exception>
    public IAsyncEnumerable<JudgeReadingsResponse> JudgeReadingsAsync(JudgeReadingsRequest request, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        return StreamAsync(call => _judgements.JudgeReadings(request, call), cancellationToken);
    }
}

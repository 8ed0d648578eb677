using ClearView.Records.Model;
using ClearView.Server.Faults;

namespace ClearView.Server.Services;

/// <summary>Finds documents by name, and says what there is where one is missing.</summary>
internal static class StoredDocuments
{
    private const int MostNamesShown = 20;

    /// <summary>The document of a valid name.</summary>
    /// <param name="store">The store of its kind.</param>
    /// <param name="kind">What it is, in words, for example "specification".</param>
    /// <param name="name">The name.</param>
    /// <param name="version">The version; 0 for the newest.</param>
    /// <param name="furtherNames">Names outside the store that a message is to show.</param>
    /// <param name="cancellationToken">Stops the search.</param>
    /// <exception cref="DocumentNotFoundException">Nothing has the name or the version.</exception>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    public static async Task<StoredVersion> FindAsync(
        IVersionedStore store,
        string kind,
        string name,
        uint version,
        IEnumerable<string> furtherNames,
        CancellationToken cancellationToken)
    {
        if (await store.FindAsync(name, version == 0 ? null : version, cancellationToken).ConfigureAwait(false) is { } found)
        {
            return found;
        }

        if (version != 0 && await store.FindAsync(name, null, cancellationToken).ConfigureAwait(false) is { } newest)
        {
            throw NoVersion(kind, name, version, newest.Version);
        }

        var page = await store.ListAsync(new VersionQuery { PageSize = MostNamesShown }, cancellationToken).ConfigureAwait(false);
        var names = furtherNames.Concat(page.Versions.Select(stored => stored.Entry.Name)).ToList();
        var there = names.Count == 0 ? "none is stored" : $"there are {string.Join(", ", names)}{(page.HasMore ? " and more" : "")}";
        throw new DocumentNotFoundException($"No {kind} has the name \"{name}\"; {there}.");
    }

    /// <summary>What is thrown where a name has no such version.</summary>
    public static DocumentNotFoundException NoVersion(string kind, string name, uint version, long newest) =>
        new(FormattableString.Invariant($"The {kind} \"{name}\" has no version {version}; its newest is {newest}."));
}

using System.Runtime.CompilerServices;

using ClearView.V1;

namespace ClearView.Client;

/// <content>Specifications of products, and references that colour differences are taken from.</content>
public sealed partial class ClearViewClient
{
    /// <summary>Stores a specification under a name, as its next version. When this returns, it is on durable storage.</summary>
    /// <param name="name">The name, 1 to 60 characters: a to z, digits, "-" and ".", beginning with a letter.</param>
    /// <param name="description">What it is for, in a line, 1 to 200 characters.</param>
    /// <param name="specification">The specification.</param>
    /// <param name="storedBy">Who stores it, 1 to 100 characters.</param>
    /// <param name="cancellationToken">Gives the call up; the specification may be stored nevertheless.</param>
    /// <returns>The specification with its version, and whether the newest version held the same already.</returns>
    /// <exception cref="ClearViewCallException">The server refused, lacks the method or a reference, or could not be reached.</exception>
    public Task<StoreSpecificationResponse> StoreSpecificationAsync(
        string name, string description, Specification specification, string storedBy, CancellationToken cancellationToken = default)
    {
        var request = new StoreSpecificationRequest { Name = name, Description = description, Specification = specification, StoredBy = storedBy };
        return CallAsync(call => _specifications.StoreSpecificationAsync(request, call), cancellationToken);
    }

    /// <summary>Gives one specification.</summary>
    /// <param name="specification">Its name, and its version or 0 for the newest.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <exception cref="ClearViewCallException">There is no such specification, or the server could not be reached.</exception>
    public async Task<NamedSpecification> GetSpecificationAsync(SpecificationName specification, CancellationToken cancellationToken = default)
    {
        var request = new GetSpecificationRequest { SpecificationName = specification };
        var response = await CallAsync(call => _specifications.GetSpecificationAsync(request, call), cancellationToken).ConfigureAwait(false);
        return response.Specification;
    }

    /// <summary>Gives specifications by name, page after page as they are read.</summary>
    /// <param name="allVersions">Whether to give every version; <see langword="false"/> gives the newest of each name.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <exception cref="ClearViewCallException">The server refused or could not be reached.</exception>
    public async IAsyncEnumerable<NamedSpecification> ListSpecificationsAsync(
        bool allVersions = false, [EnumeratorCancellation] CancellationToken cancellationToken = default)
    {
        var pages = PagesAsync(
            "",
            (token, call) => _specifications.ListSpecificationsAsync(new ListSpecificationsRequest { AllVersions = allVersions, PageToken = token }, call),
            page => page.NextPageToken,
            cancellationToken);
        await foreach (var page in pages.ConfigureAwait(false))
        {
            foreach (var specification in page.Specifications)
            {
                yield return specification;
            }
        }
    }

    /// <summary>Stores the colour of a stored reading as a reference under a name, as its next version.</summary>
    /// <param name="name">The name, 1 to 60 characters: a to z, digits, "-" and ".", beginning with a letter.</param>
    /// <param name="description">What it is, in a line, 1 to 200 characters.</param>
    /// <param name="readingId">The stored reading.</param>
    /// <param name="storedBy">Who stores it, 1 to 100 characters.</param>
    /// <param name="cancellationToken">Gives the call up; the reference may be stored nevertheless.</param>
    /// <returns>The reference with its version and colour, and whether the newest version held the same already.</returns>
    /// <exception cref="ClearViewCallException">There is no such reading, it has no colour, or the server could not be reached.</exception>
    public Task<StoreReferenceResponse> StoreReferenceAsync(
        string name, string description, Guid readingId, string storedBy, CancellationToken cancellationToken = default)
    {
        var request = new StoreReferenceRequest { Name = name, Description = description, ReadingId = readingId.ToString("D"), StoredBy = storedBy };
        return CallAsync(call => _specifications.StoreReferenceAsync(request, call), cancellationToken);
    }

    /// <summary>Gives one reference.</summary>
    /// <param name="reference">Its name, and its version or 0 for the newest.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <exception cref="ClearViewCallException">There is no such reference, or the server could not be reached.</exception>
    public async Task<NamedReference> GetReferenceAsync(ReferenceName reference, CancellationToken cancellationToken = default)
    {
        var request = new GetReferenceRequest { ReferenceName = reference };
        var response = await CallAsync(call => _specifications.GetReferenceAsync(request, call), cancellationToken).ConfigureAwait(false);
        return response.Reference;
    }

    /// <summary>Gives references by name, page after page as they are read.</summary>
    /// <param name="allVersions">Whether to give every version; <see langword="false"/> gives the newest of each name.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <exception cref="ClearViewCallException">The server refused or could not be reached.</exception>
    public async IAsyncEnumerable<NamedReference> ListReferencesAsync(
        bool allVersions = false, [EnumeratorCancellation] CancellationToken cancellationToken = default)
    {
        var pages = PagesAsync(
            "",
            (token, call) => _specifications.ListReferencesAsync(new ListReferencesRequest { AllVersions = allVersions, PageToken = token }, call),
            page => page.NextPageToken,
            cancellationToken);
        await foreach (var page in pages.ConfigureAwait(false))
        {
            foreach (var reference in page.References)
            {
                yield return reference;
            }
        }
    }
}

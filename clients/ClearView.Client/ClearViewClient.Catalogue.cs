using System.Runtime.CompilerServices;

using ClearView.V1;

namespace ClearView.Client;

/// <content>What there is to choose from, and methods under names.</content>
public sealed partial class ClearViewClient
{
    /// <summary>Gives everything that is built in: illuminants, bands, resins, measurands.</summary>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <exception cref="ClearViewCallException">The server could not be reached.</exception>
    public async Task<GetCatalogueResponse> GetCatalogueAsync(CancellationToken cancellationToken = default) =>
        await CallAsync(call => _catalogue.GetCatalogueAsync(new GetCatalogueRequest(), call), cancellationToken).ConfigureAwait(false);

    /// <summary>Gives methods, the built-in ones first, then the stored ones by name; page after page as they are read.</summary>
    /// <param name="allVersions">Whether to give every version; <see langword="false"/> gives the newest of each name.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <exception cref="ClearViewCallException">The server refused or could not be reached.</exception>
    public async IAsyncEnumerable<NamedMethod> ListMethodsAsync(
        bool allVersions = false, [EnumeratorCancellation] CancellationToken cancellationToken = default)
    {
        var pages = PagesAsync(
            "",
            (token, call) => _catalogue.ListMethodsAsync(new ListMethodsRequest { AllVersions = allVersions, PageToken = token }, call),
            page => page.NextPageToken,
            cancellationToken);
        await foreach (var page in pages.ConfigureAwait(false))
        {
            foreach (var method in page.Methods)
            {
                yield return method;
            }
        }
    }

    /// <summary>Gives one method, built in or stored.</summary>
    /// <param name="method">Its name, and its version or 0 for the newest.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <exception cref="ClearViewCallException">There is no such method, or the server could not be reached.</exception>
    public async Task<NamedMethod> GetMethodAsync(MethodName method, CancellationToken cancellationToken = default)
    {
        var request = new GetMethodRequest { MethodName = method };
        var response = await CallAsync(call => _catalogue.GetMethodAsync(request, call), cancellationToken).ConfigureAwait(false);
        return response.Method;
    }

    /// <summary>Stores a method under a name, as its next version. When this returns, it is on durable storage.</summary>
    /// <param name="name">The name, 1 to 60 characters: a to z, digits, "-" and ".", beginning with a letter.</param>
    /// <param name="description">What it is for, in a line, 1 to 200 characters.</param>
    /// <param name="method">The method.</param>
    /// <param name="storedBy">Who stores it, 1 to 100 characters.</param>
    /// <param name="cancellationToken">Gives the call up; the method may be stored nevertheless.</param>
    /// <returns>The method with its version, and whether the newest version held the same already.</returns>
    /// <exception cref="ClearViewCallException">The server refused, the name is a built-in one, or the server could not be reached.</exception>
    public async Task<StoreMethodResponse> StoreMethodAsync(
        string name, string description, Method method, string storedBy, CancellationToken cancellationToken = default)
    {
        var request = new StoreMethodRequest { Name = name, Description = description, Method = method, StoredBy = storedBy };
        return await CallAsync(call => _catalogue.StoreMethodAsync(request, call), cancellationToken).ConfigureAwait(false);
    }
}

using System.Collections.Concurrent;

using ClearView.Contract.Decisions;
using ClearView.Contract.Validation;
using ClearView.Records.Model;
using ClearView.Server.Faults;
using ClearView.Server.Mapping;
using ClearView.V1;

namespace ClearView.Server.Services;

/// <summary>Finds stored specifications and puts them together with their methods.</summary>
internal sealed class SpecificationResolver(
    [FromKeyedServices(VersionedKind.Specification)] IVersionedStore store, MethodResolver methods)
{
    private const int MostCached = 1000;

    // A version never changes, so that it need not be put together twice; which one is the newest has to be looked up.
    private readonly ConcurrentDictionary<(string Name, uint Version), ResolvedSpecification> _cache = new();

    /// <summary>The specification of a name.</summary>
    /// <param name="name">The name as it came.</param>
    /// <param name="violations">Takes what is at fault in the name.</param>
    /// <param name="cancellationToken">Stops the search.</param>
    /// <returns>The specification; <see langword="null"/> when the name is at fault.</returns>
    /// <exception cref="DocumentNotFoundException">No specification has the name or the version.</exception>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    public async Task<ResolvedSpecification?> FindAsync(SpecificationName? name, Violations violations, CancellationToken cancellationToken)
    {
        if (name is null)
        {
            violations.Add("specification_name", $"was missing; expected the name of a specification.");
            return null;
        }

        var found = new Violations();
        MethodNameRules.Check(name.Name, "specification_name.name", found);
        violations.AddAll(found);
        if (!found.IsEmpty)
        {
            return null;
        }

        if (_cache.TryGetValue((name.Name, name.Version), out var cached))
        {
            return cached;
        }

        var stored = await StoredDocuments.FindAsync(store, "specification", name.Name, name.Version, [], cancellationToken).ConfigureAwait(false);
        var key = (stored.Entry.Name, (uint)stored.Version);
        if (_cache.TryGetValue(key, out cached))
        {
            return cached;
        }

        var named = NamedSpecifications.ToNamedSpecification(stored);
        var specification = await ResolveAsync(named.Specification, named.SpecificationName, "specification", violations, cancellationToken)
            .ConfigureAwait(false);
        if (specification is not null)
        {
            if (_cache.Count >= MostCached)
            {
                _cache.Clear();
            }

            _cache.TryAdd(key, specification);
        }

        return specification;
    }

    /// <summary>Checks a specification and puts it together with its method.</summary>
    /// <exception cref="DocumentNotFoundException">Its method is not there.</exception>
    public async Task<ResolvedSpecification?> ResolveAsync(
        Specification? specification, SpecificationName? name, string path, Violations violations, CancellationToken cancellationToken)
    {
        var nameFaults = new Violations();
        NamedMethod? method = null;
        if (specification?.MethodName is { } methodName)
        {
            MethodNameRules.Check(methodName, "method_name", nameFaults);
            method = nameFaults.IsEmpty ? await methods.FindAsync(methodName, cancellationToken).ConfigureAwait(false) : null;
        }

        return SpecificationReader.Read(specification, name, method, path, violations);
    }
}

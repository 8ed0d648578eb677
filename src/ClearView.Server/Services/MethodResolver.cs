using System.Collections.Concurrent;

using ClearView.Contract;
using ClearView.Contract.Methods;
using ClearView.Contract.Validation;
using ClearView.Records.Model;
using ClearView.Server.Faults;
using ClearView.Server.Mapping;
using ClearView.V1;

namespace ClearView.Server.Services;

/// <summary>Finds the method that a request chose: its own, a built-in one or a stored one.</summary>
internal sealed class MethodResolver([FromKeyedServices(VersionedKind.Method)] IVersionedStore store)
{
    private const int MostCached = 1000;

    // A version never changes, so that it need not be read twice; which one is the newest has to be looked up.
    private readonly ConcurrentDictionary<(string Name, uint Version), NamedMethod> _cache = new();

    /// <summary>The choice of a request: its own method, or the one that it names, or what is at fault in the name.</summary>
    /// <exception cref="DocumentNotFoundException">No method has the name or the version.</exception>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    public async Task<MethodChoice> ResolveAsync(Method? method, MethodName? name, CancellationToken cancellationToken)
    {
        if (name is null)
        {
            return MethodChoice.Given(method);
        }

        var violations = new Violations();
        MethodNameRules.Check(name, "method_name", violations);
        if (!violations.IsEmpty)
        {
            return MethodChoice.Refused(violations.ToImmutable());
        }

        var found = await FindAsync(name, cancellationToken).ConfigureAwait(false);
        return MethodChoice.Found(found.Method, found.MethodName);
    }

    /// <summary>The method of a valid name. It is shared: do not change it.</summary>
    /// <exception cref="DocumentNotFoundException">No method has the name or the version.</exception>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    public async Task<NamedMethod> FindAsync(MethodName name, CancellationToken cancellationToken)
    {
        if (BuiltInMethods.Find(name.Name) is { } builtIn)
        {
            return name.Version == 0 || name.Version == builtIn.Version
                ? builtIn.ToNamedMethod()
                : throw StoredDocuments.NoVersion("method", name.Name, name.Version, builtIn.Version);
        }

        if (_cache.TryGetValue((name.Name, name.Version), out var cached))
        {
            return cached;
        }

        var stored = await StoredDocuments.FindAsync(
            store, "method", name.Name, name.Version, BuiltInMethods.All.Select(builtIn => builtIn.Name), cancellationToken).ConfigureAwait(false);
        var key = (stored.Entry.Name, (uint)stored.Version);
        if (_cache.Count >= MostCached)
        {
            _cache.Clear();
        }

        return _cache.GetOrAdd(key, static (_, found) => NamedMethods.ToNamedMethod(found), stored);
    }
}

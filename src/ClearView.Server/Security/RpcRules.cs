using System.Collections.Frozen;
using System.Reflection;

using ClearView.V1;

using Google.Protobuf.Reflection;

namespace ClearView.Server.Security;

/// <summary>Who may call which rpc: as the contract declares with each of them, and for the two services that are not ours, as is said here.</summary>
internal static class RpcRules
{
    private static readonly FrozenDictionary<string, FrozenSet<Role>> Declared = ReadContract().ToFrozenDictionary(StringComparer.Ordinal);

    /// <summary>Whether anybody may call it, who has neither key nor certificate.</summary>
    /// <param name="method">Full name, for example "/clearview.v1.ReadingService/PostReading".</param>
    public static bool IsOpen(string method) => method.StartsWith("/grpc.health.v1.Health/", StringComparison.Ordinal);

    /// <summary>Whether a role may call it. What is declared nowhere, nobody may call.</summary>
    /// <param name="method">Full name.</param>
    /// <param name="role">The role.</param>
    public static bool Allows(string method, Role role)
    {
        if (Declared.TryGetValue(method, out var roles))
        {
            return role == Role.Administrator || roles.Contains(role);
        }

        return IsReflection(method) && role is Role.Administrator or Role.Engineer;
    }

    private static bool IsReflection(string method) =>
        method.StartsWith("/grpc.reflection.v1.ServerReflection/", StringComparison.Ordinal)
        || method.StartsWith("/grpc.reflection.v1alpha.ServerReflection/", StringComparison.Ordinal);

    private static IEnumerable<KeyValuePair<string, FrozenSet<Role>>> ReadContract() =>
        from type in typeof(Access).Assembly.GetTypes()
        let property = type.GetProperty("Descriptor", BindingFlags.Public | BindingFlags.Static)
        where property?.PropertyType == typeof(FileDescriptor)
        from service in ((FileDescriptor)property.GetValue(null)!).Services
        from method in service.Methods
        let access = method.GetOptions()?.GetExtension(AccessExtensions.Access)
        where access is not null
        select KeyValuePair.Create($"/{service.FullName}/{method.Name}", access.Roles.ToFrozenSet());
}

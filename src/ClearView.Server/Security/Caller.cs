using System.Collections.Immutable;

using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Security;

/// <summary>Who calls, and what it may touch.</summary>
/// <param name="Name">Name of its key, or what stands for one.</param>
/// <param name="Role">Its role.</param>
/// <param name="Stations">Production lines that it may post for and read, where its role is that of a line.</param>
internal sealed record Caller(string Name, Role Role, ImmutableArray<string> Stations)
{
    /// <summary>Everybody, on a server that asks nobody who they are.</summary>
    public static Caller Everybody { get; } = new("open access", Role.Administrator, []);

    private static readonly object ItemKey = new();

    /// <summary>The caller of a call.</summary>
    /// <exception cref="InvalidOperationException">Nobody has looked who calls.</exception>
    public static Caller Of(ServerCallContext context) => context.GetHttpContext().Items.TryGetValue(ItemKey, out var caller)
        ? (Caller)caller!
        : throw new InvalidOperationException("A call came past the look at its caller.");

    /// <summary>Notes who calls.</summary>
    public void Note(HttpContext http) => http.Items[ItemKey] = this;

    /// <summary>Why the caller may not post for or read a production line; <see langword="null"/> where it may.</summary>
    /// <param name="line">The production line, exactly; empty for none.</param>
    public FieldViolation? StationViolation(string line) => Role != Role.Line || Stations.Contains(line, StringComparer.Ordinal)
        ? null
        : new FieldViolation
        {
            Field = "measurement.identification.line",
            Description = $"was \"{line}\"; {StationsText}.",
        };

    private string StationsText => $"the key {Name} is for {string.Join(", ", Stations.Select(station => $"\"{station}\""))}";

    /// <summary>Refuses a production line that the caller may not post for or read.</summary>
    /// <param name="line">The production line, exactly; empty for none.</param>
    /// <exception cref="RpcException">PERMISSION_DENIED.</exception>
    public void CheckStation(string line)
    {
        // The line may be that of a stored reading, which is not the caller's to know.
        if (StationViolation(line) is not null)
        {
            throw new RpcException(new Status(StatusCode.PermissionDenied, $"line: {StationsText}."));
        }
    }
}

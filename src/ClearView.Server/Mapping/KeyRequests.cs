using ClearView.Contract.Series;
using ClearView.Contract.Validation;
using ClearView.Server.Security;
using ClearView.V1;

namespace ClearView.Server.Mapping;

/// <summary>Requests for keys to keys.</summary>
internal static class KeyRequests
{
    private const int MostStations = 50;
    private const int LongestDescription = 200;
    private static readonly TimeSpan UsualLife = TimeSpan.FromDays(365);
    private static readonly TimeSpan LongestLife = TimeSpan.FromDays(3652);

    /// <summary>Checks a request and makes the key that it asks for.</summary>
    /// <param name="request">The request.</param>
    /// <param name="by">Who asks.</param>
    /// <param name="now">The time.</param>
    /// <param name="violations">Takes every field at fault.</param>
    /// <returns>The key and its secret; meaningful only where no violation was added.</returns>
    public static (KeyRecord Key, string Secret) Read(CreateKeyRequest request, string by, DateTimeOffset now, Violations violations)
    {
        MethodNameRules.Check(request.Name, "name", violations);
        if (request.Role is not (Role.Line or Role.Engineer or Role.Lab or Role.Administrator))
        {
            violations.Add("role", $"was {(int)request.Role}; expected ROLE_LINE, ROLE_ENGINEER, ROLE_LAB or ROLE_ADMINISTRATOR.");
        }

        if (string.IsNullOrWhiteSpace(request.Description))
        {
            violations.Add("description", $"was empty; expected 1 to {LongestDescription} characters.");
        }

        violations.CheckText("description", request.Description, LongestDescription);
        CheckStations(request, violations);
        var expiresAt = ReadExpiry(request, now, violations);

        // A key by certificate has a secret that nobody learns: its hash tells the key from another of the same name.
        var secret = KeySecret.Create();
        var key = new KeyRecord
        {
            Name = request.Name,
            SecretHash = [.. KeySecret.Hash(secret)],
            Role = request.Role,
            Stations = [.. request.Stations],
            ByCertificate = request.ByCertificate,
            Description = request.Description,
            CreatedBy = by,
            CreatedAt = now,
            ExpiresAt = expiresAt,
        };
        return (key, request.ByCertificate ? "" : secret);
    }

    private static void CheckStations(CreateKeyRequest request, Violations violations)
    {
        if (request.Role != Role.Line)
        {
            if (request.Stations.Count > 0)
            {
                violations.Add("stations", $"had {request.Stations.Count} lines; only the role of a line has stations.");
            }

            return;
        }

        if (request.Stations.Count is 0 or > MostStations)
        {
            violations.Add("stations", $"had {request.Stations.Count} lines; expected 1 to {MostStations}.");
        }

        for (var i = 0; i < request.Stations.Count; i++)
        {
            violations.CheckText($"stations[{i}]", request.Stations[i]);
            if (string.IsNullOrWhiteSpace(request.Stations[i]))
            {
                violations.Add($"stations[{i}]", $"was empty; expected the name of a production line.");
            }
        }
    }

    private static DateTimeOffset ReadExpiry(CreateKeyRequest request, DateTimeOffset now, Violations violations)
    {
        if (request.ExpiresAt is null)
        {
            return now + UsualLife;
        }

        if (TimestampRules.ReadTicks(request.ExpiresAt, "expires_at", violations) is not { } ticks)
        {
            return now;
        }

        var expiresAt = new DateTimeOffset(ticks, TimeSpan.Zero);
        if (expiresAt <= now || expiresAt > now + LongestLife)
        {
            violations.Add("expires_at", $"was {expiresAt:u}; expected a time after now and within ten years.");
        }

        return expiresAt;
    }
}

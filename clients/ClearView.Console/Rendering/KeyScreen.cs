using System.Globalization;

using ClearView.Console.Rendering.Decisions;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

using Spectre.Console;

namespace ClearView.Console.Rendering;

/// <summary>Keys, never with their secret but once, when they are made.</summary>
internal static class KeyScreen
{
    /// <summary>Writes a new key.</summary>
    /// <param name="screen">Where.</param>
    /// <param name="made">The key and its secret.</param>
    /// <param name="file">File that the secret was written to; <see langword="null"/> where it is to be shown.</param>
    /// <param name="asJson">Whether it is for a script.</param>
    public static void WriteMade(Screen screen, CreateKeyResponse made, string? file, bool asJson)
    {
        if (asJson)
        {
            var shown = file is null ? made : new CreateKeyResponse { Key = made.Key };
            JsonText.Write(screen, JsonText.OfMessage(shown)!);
            return;
        }
        Write(screen, made.Key);
        if (made.Key.ByCertificate)
        {
            screen.Line($"Give its holder a client certificate with the common name {Markup.Escape(made.Key.Name)}.");
        }
        else if (file is not null)
        {
            screen.Line($"The secret is in {Markup.Escape(file)}, and nowhere else.");
        }
        else
        {
            MethodPanel.WriteRows(screen, [("Secret", made.Secret)]);
            screen.Line("It is shown this once and kept nowhere. Put it where only its holder reads it.");
        }
    }

    /// <summary>Writes one key.</summary>
    public static void Write(Screen screen, Key key)
    {
        List<(string Label, string Text)> rows =
        [
            ("Key", key.Name),
            ("Role", Role(key.Role)),
        ];
        if (key.Stations.Count > 0)
        {
            rows.Add(("Stations", string.Join("; ", key.Stations)));
        }
        rows.Add(("Description", key.Description));
        rows.Add(("State", key.State == KeyState.Revoked ? State(key.State) : $"{State(key.State)}, until {Time(key.ExpiresAt)}"));
        rows.Add(("Made", $"{Time(key.CreatedAt)} by {key.CreatedBy}"));
        if (key.RevokedAt is not null)
        {
            rows.Add(("Revoked", $"{Time(key.RevokedAt)} by {key.RevokedBy}"));
        }
        MethodPanel.WriteRows(screen, rows);
    }

    /// <summary>Writes a list of keys.</summary>
    public static void WriteList(Screen screen, IReadOnlyCollection<Key> keys)
    {
        if (keys.Count == 0)
        {
            screen.Line("There is no key. Make the first one with: clearview keys bootstrap");
            return;
        }
        var table = new DataTable().Text("Name").Words("Role").Text("Stations").Words("State").Words("Expires").Words("By").Text("Description");
        foreach (var key in keys)
        {
            table.Row(
                Markup.Escape(NameText.Of(screen, key.Name)),
                Role(key.Role),
                Markup.Escape(key.Stations.Count == 0 ? "-" : string.Join("\n", key.Stations)),
                State(key.State),
                key.ExpiresAt.ToDateTime().ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
                key.ByCertificate ? "certificate" : $"key ..{Markup.Escape(key.Fingerprint)}",
                Markup.Escape(key.Description));
        }
        table.Write(screen);
    }

    private static string Time(Timestamp time) => time.ToDateTime().ToString("yyyy-MM-dd HH:mm 'UTC'", CultureInfo.InvariantCulture);

    private static string Role(Role role) => role switch
    {
        V1.Role.Line => "line",
        V1.Role.Engineer => "engineer",
        V1.Role.Lab => "lab",
        V1.Role.Administrator => "administrator",
        _ => "unknown",
    };

    private static string State(KeyState state) => state switch
    {
        KeyState.Active => "active",
        KeyState.Expired => "expired",
        KeyState.Revoked => "revoked",
        _ => "unknown",
    };
}

using System.Globalization;

using ClearView.Records.Model;

namespace ClearView.Records.Schema;

/// <summary>Why a store that is only read cannot be read as it is, and how it is brought forward.</summary>
internal static class SchemaForward
{
    private const string How =
        "Here a store is only read, never changed. Bring it forward by starting a server of this version on it once, or on a copy of it: clearview serve --store STORE";

    /// <summary>The store has an older schema.</summary>
    /// <param name="store">The store in words, as the subject of the sentence.</param>
    /// <param name="version">Version of its schema.</param>
    /// <param name="newest">Version of the newest schema.</param>
    public static StoreFormatException IsNeeded(string store, int version, int newest) => new(string.Create(
        CultureInfo.InvariantCulture, $"{store} has schema version {version}, of an older ClearView; this version reads version {newest}. {How}"));

    /// <summary>Records from before the chains wait for their links.</summary>
    /// <param name="store">The store in words, as the subject of the sentence.</param>
    public static StoreFormatException IsUnfinished(string store) => new(
        $"{store} has records from before the chains that wait for their links. {How}");
}

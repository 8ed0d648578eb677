using System.Text.Json;

namespace ClearView.Client.Outbox;

/// <summary>A reading that the server refused, as it lies in the refused folder.</summary>
/// <param name="Sequence">Number in the outbox.</param>
/// <param name="ReadingId">Identifier.</param>
/// <param name="Line">Production line; empty where the reading names none.</param>
/// <param name="Specimen">Name of the specimen.</param>
/// <param name="RefusedAt">When, by the clock of this machine.</param>
/// <param name="Reasons">Why, in words.</param>
/// <param name="Request">The serialised request, as it was accepted.</param>
public sealed record RefusedReading(long Sequence, string ReadingId, string Line, string Specimen, DateTimeOffset RefusedAt, string Reasons, ReadOnlyMemory<byte> Request)
{
    private static readonly JsonSerializerOptions Layout = new() { WriteIndented = true, PropertyNamingPolicy = JsonNamingPolicy.CamelCase };

    internal byte[] ToBytes() => JsonSerializer.SerializeToUtf8Bytes(this, Layout);

    /// <summary>Reads one; <see langword="null"/> where the file holds none or cannot be read now.</summary>
    internal static RefusedReading? Read(string path)
    {
        try
        {
            return Parse(File.ReadAllBytes(path));
        }
        catch (IOException)
        {
            return null;
        }
    }

    /// <summary>The one in the bytes of a file; <see langword="null"/> where they hold none.</summary>
    internal static RefusedReading? Parse(ReadOnlySpan<byte> bytes)
    {
        try
        {
            return JsonSerializer.Deserialize<RefusedReading>(bytes, Layout);
        }
        catch (JsonException)
        {
            return null;
        }
    }
}

using System.Text.Json;

using ClearView.Console.Commands;
using ClearView.V1;

using Google.Protobuf;

namespace ClearView.Console.Options;

/// <summary>Reads a specification from a file of JSON: the specification itself, or one under its name as the server gives it.</summary>
internal static class SpecificationFile
{
    private const long LargestFileBytes = 1024 * 1024;

    private static readonly JsonParser Parser = new(JsonParser.Settings.Default);

    /// <summary>Whether a text names a file rather than a stored specification.</summary>
    public static bool IsFile(string text) => text.EndsWith(".json", StringComparison.OrdinalIgnoreCase) || StoredNames.Specification(text) is null;

    /// <summary>Reads it. Its fields are judged where it is used.</summary>
    /// <exception cref="UsageException">It cannot be read, or is no specification.</exception>
    public static Specification Read(string path)
    {
        try
        {
            var file = new FileInfo(path);
            if (!file.Exists)
            {
                throw new UsageException($"{path}: no such file; expected a specification as JSON, as \"clearview specifications show NAME --json\" writes it");
            }
            if (file.Length > LargestFileBytes)
            {
                throw new UsageException($"{path}: the file is larger than 1 MB; expected a specification as JSON");
            }
            var text = File.ReadAllText(path);
            using var document = JsonDocument.Parse(text);
            return document.RootElement.ValueKind == JsonValueKind.Object && document.RootElement.TryGetProperty("specification", out _)
                ? Parser.Parse<NamedSpecification>(text).Specification
                : Parser.Parse<Specification>(text);
        }
        catch (Exception e) when (e is JsonException or InvalidJsonException or InvalidProtocolBufferException)
        {
            throw new UsageException($"{path} is not a specification as JSON: {e.Message}");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new UsageException($"{path}: {e.Message}");
        }
    }
}

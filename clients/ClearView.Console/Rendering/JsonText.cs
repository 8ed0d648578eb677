using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

using ClearView.Console.Judging;

using Google.Protobuf;

namespace ClearView.Console.Rendering;

/// <summary>
/// Writes results for scripts. Messages of the contract stand as the JSON mapping of Protocol Buffers gives them, every field
/// written and every number in full precision; what surrounds them is described in docs/tutorial.md.
/// </summary>
internal static class JsonText
{
    private static readonly JsonFormatter Formatter = new(JsonFormatter.Settings.Default.WithFormatDefaultValues(true));

    private static readonly JsonSerializerOptions Layout = new() { WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Writes a document.</summary>
    public static void Write(Screen screen, JsonNode document) => screen.Output.Write(document.ToJsonString(Layout) + "\n");

    /// <summary>A message of the contract.</summary>
    public static JsonNode? OfMessage(IMessage? message) => message is null ? null : JsonNode.Parse(Formatter.Format(message));

    /// <summary>A specimen that came from a file.</summary>
    public static JsonObject OfFileResult(SpecimenResult result)
    {
        var node = new JsonObject
        {
            ["file"] = result.FilePath,
            ["line"] = result.Line,
            ["specimen"] = result.Specimen,
            ["notes"] = new JsonArray([.. result.Notes.Select(note => (JsonNode)note)]),
            ["violations"] = new JsonArray([.. result.Violations.Select(OfMessage)]),
        };
        AddVerdict(node, result.Verdict);
        return node;
    }

    /// <summary>Adds verdict and limits.</summary>
    public static void AddVerdict(JsonObject node, LimitsVerdict? verdict)
    {
        node["result"] = verdict is null ? null : VerdictText.Word(verdict.Judgement);
        node["limits"] = new JsonArray([.. (verdict?.Outcomes ?? []).Select(outcome => (JsonNode)new JsonObject
        {
            ["measurand"] = outcome.Limit.Measurand.Id,
            ["comparison"] = outcome.Limit.IsUpper ? "<=" : ">=",
            ["limit"] = outcome.Limit.Value,
            ["unit"] = outcome.Limit.Measurand.Unit,
            ["value"] = outcome.Value?.Value,
            ["result"] = VerdictText.Word(outcome.Judgement),
            ["reason"] = outcome.Reason,
        })]);
    }
}

using System.Collections.Immutable;
using System.Text.Json;

using ClearView.Plotting.Charts;
using ClearView.Plotting.Decisions;
using ClearView.Plotting.Model;
using ClearView.V1;

using Google.Protobuf;

namespace ClearView.Plotting.Commands;

/// <summary>A file that holds one decision as protobuf's JSON, and the charts of it.</summary>
internal static class DecisionFile
{
    private const string Known = "capability (EstimateCapabilityResponse), rollMap (MapRollResponse), comparisons (CompareLotsResponse), "
        + "acceptancePlan (PlanSamplingResponse), verdict (JudgeSpecimensResponse), controlChart (a DrawnControlChart), or an array of its parts";

    private static readonly JsonParser Parser = new(JsonParser.Settings.Default);

    /// <summary>Reads a file and decides by its top-level keys what it holds.</summary>
    /// <param name="path">The file, UTF-8.</param>
    /// <returns>The charts, each with a suffix for its file's name; empty for a single one.</returns>
    /// <exception cref="ChartRefusedException">The file is not JSON, holds nothing that can be drawn, or does not fit the message that its keys name.</exception>
    public static IReadOnlyList<(string Suffix, ChartModel Chart)> Charts(string path)
    {
        string text = File.ReadAllText(path);
        try
        {
            using var document = JsonDocument.Parse(text);
            return Charts(path, document.RootElement, text);
        }
        catch (JsonException e)
        {
            throw new ChartRefusedException($"{path} is not JSON: {e.Message}", e);
        }
        catch (InvalidJsonException e)
        {
            throw new ChartRefusedException($"{path} is not the JSON of a message: {e.Message}", e);
        }
        catch (InvalidProtocolBufferException e)
        {
            throw new ChartRefusedException($"{path} does not fit the message that its keys name: {e.Message}", e);
        }
    }

    private static IReadOnlyList<(string Suffix, ChartModel Chart)> Charts(string path, JsonElement root, string text)
    {
        if (root.ValueKind == JsonValueKind.Array)
        {
            return [("", ProcessChart.Build([.. root.EnumerateArray().Select(part => Part(path, part))]))];
        }

        if (root.ValueKind != JsonValueKind.Object)
        {
            throw Unknown(path, "neither an object nor an array");
        }

        if (Has(root, "controlChart", "control_chart") || Has(root, "part", "part"))
        {
            return [("", ProcessChart.Build([Part(path, root)]))];
        }

        if (Has(root, "capability", "capability"))
        {
            return [("", CapabilityChart.Build(Parser.Parse<EstimateCapabilityResponse>(text).Capability))];
        }

        if (Has(root, "rollMap", "roll_map"))
        {
            return [("", RollMapChart.Build(Parser.Parse<MapRollResponse>(text).RollMap))];
        }

        if (Has(root, "verdict", "verdict"))
        {
            return [("", VerdictChart.Build(Parser.Parse<JudgeSpecimensResponse>(text).Verdict))];
        }

        if (Has(root, "comparisons", "comparisons"))
        {
            LotComparison[] comparisons = [.. Parser.Parse<CompareLotsResponse>(text).Comparisons];
            return comparisons.Length == 0
                ? throw new ChartRefusedException($"{path} holds no comparison of lots.")
                : [.. comparisons.Select(one => (comparisons.Length == 1 ? "" : $"-{one.Measurand}", LotComparisonChart.Build(one)))];
        }

        if (Has(root, "acceptancePlan", "acceptance_plan"))
        {
            return [("", OperatingCharacteristicChart.Build(Parser.Parse<PlanSamplingResponse>(text).AcceptancePlan))];
        }

        if (Has(root, "specimenCount", "specimen_count"))
        {
            throw new ChartRefusedException($"{path} holds a number of specimens without an acceptance plan; only plans have a curve to draw.");
        }

        ImmutableArray<string> keys = [.. root.EnumerateObject().Select(property => property.Name)];
        throw Unknown(path, keys.IsEmpty ? "an object without keys" : $"the keys {string.Join(", ", keys.Take(6))}");
    }

    private static ChartRefusedException Unknown(string path, string found) => new($"{path} holds {found}; charts are drawn of {Known}.");

    /// <summary>A part of a drawn chart, by itself or within the answer that brought it.</summary>
    private static DrawnControlChart Part(string path, JsonElement part)
    {
        if (part.ValueKind != JsonValueKind.Object)
        {
            throw Unknown(path, "an array of something else than objects");
        }

        return Has(part, "part", "part")
            ? Parser.Parse<GetControlChartResponse>(part.GetRawText()).Part
            : Parser.Parse<DrawnControlChart>(part.GetRawText());
    }

    /// <summary>Whether a key is there and set: protobuf's JSON knows a field by either of two names, and null is not set.</summary>
    private static bool Has(JsonElement root, string json, string proto) =>
        (root.TryGetProperty(json, out JsonElement value) || root.TryGetProperty(proto, out value)) && value.ValueKind != JsonValueKind.Null;
}

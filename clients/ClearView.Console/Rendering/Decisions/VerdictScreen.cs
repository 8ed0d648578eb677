using ClearView.V1;

using Spectre.Console;

namespace ClearView.Console.Rendering.Decisions;

/// <summary>A verdict in full: each limit with value and uncertainty, distances, probability and risks, and why.</summary>
internal static class VerdictScreen
{
    /// <summary>Writes it.</summary>
    /// <param name="screen">Where.</param>
    /// <param name="verdict">The verdict.</param>
    /// <param name="source">What the specification is called where it has no name, for example its file; empty where nothing is.</param>
    public static void Write(Screen screen, Verdict verdict, string source = "")
    {
        var rows = new List<(string Label, string Text)>();
        if ((verdict.SpecificationName is { } name ? DecisionText.Name(name) : source) is { Length: > 0 } known)
        {
            rows.Add(("Specification", known));
        }
        rows.Add(("Decision rule", DecisionText.Rule(verdict.DecisionRule)));
        rows.Add(("Rests on", VerdictText.Counted((int)verdict.SpecimenCount, "specimen")));
        MethodPanel.WriteRows(screen, rows);
        WriteLimits(screen, verdict);
        screen.Line($"[bold]Verdict[/]: {DecisionText.Outcome(verdict.Outcome)}");
        DecisionText.WriteSentences(screen, verdict.Reasons.Count > 0 ? verdict.Reasons : verdict.Limits.Select(limit => limit.Reason));
        if (verdict.Caution.Length > 0)
        {
            screen.Line(Markup.Escape(verdict.Caution));
        }
    }

    private static void WriteLimits(Screen screen, Verdict verdict)
    {
        var table = new DataTable().Text("Limit").Numbers("Value ± U", "Distance", "in U", "Conforms\nwith prob.", "Risk").Words("Verdict");
        foreach (var limit in verdict.Limits)
        {
            table.Row(
                Markup.Escape($"{limit.Name} {DecisionText.Bounds(limit.Limit, limit.Unit)}"),
                limit.HasValue ? Value(limit) : "-",
                limit.HasDistanceToLimit ? Signed(Supported(limit, limit.DistanceToLimit)) : "-",
                limit.HasDistanceInExpandedUncertainties ? Signed(NumberText.Fixed(limit.DistanceInExpandedUncertainties, 1)) : "-",
                limit.HasConformityProbabilityFraction ? DecisionText.Probability(limit.ConformityProbabilityFraction) : "-",
                Risk(limit),
                DecisionText.Outcome(limit.Outcome));
        }
        table.Write(screen);
    }

    private static string Supported(LimitVerdict limit, double value) => limit.HasExpandedUncertainty
        ? NumberText.Supported(value, limit.ExpandedUncertainty)
        : NumberText.Usual(value, limit.Limit.Measurand, limit.Unit);

    private static string Value(LimitVerdict limit) => limit.HasExpandedUncertainty
        ? $"{Supported(limit, limit.Value)}\n± {NumberText.Supported(limit.ExpandedUncertainty, limit.ExpandedUncertainty)}"
        : Supported(limit, limit.Value);

    private static string Risk(LimitVerdict limit) => limit switch
    {
        { HasConsumersRiskFraction: true } => $"consumer\n{DecisionText.Probability(limit.ConsumersRiskFraction)}",
        { HasProducersRiskFraction: true } => $"producer\n{DecisionText.Probability(limit.ProducersRiskFraction)}",
        _ => "-",
    };

    private static string Signed(string number) => number.StartsWith('-') || number.All(c => c is '0' or '.') ? number : $"+{number}";
}

using System.Globalization;

using ClearView.V1;

using Spectre.Console;

namespace ClearView.Console.Rendering.Decisions;

/// <summary>Stored readings judged anew, the stored verdict beside that of now; a change is marked by a word.</summary>
internal static class RejudgedTable
{
    /// <summary>Whether the verdict of now is another than the stored one.</summary>
    public static bool HasChanged(JudgeReadingsResponse one) => one.StoredVerdict is { } stored && stored.Outcome != one.Verdict.Outcome;

    /// <summary>Writes it.</summary>
    public static void Write(Screen screen, IReadOnlyCollection<JudgeReadingsResponse> judged)
    {
        if (judged.Count == 0)
        {
            screen.Line("No reading matches.");
            return;
        }
        var first = judged.First().Verdict;
        MethodPanel.WriteRows(screen, [("Specification", DecisionText.Name(first.SpecificationName)), ("Decision rule", DecisionText.Rule(first.DecisionRule))]);
        var grouped = judged.Any(one => one.GroupName.Length > 0);
        var table = new DataTable().Words("Measured (UTC)").Words(grouped ? "Group" : "Specimen").Numbers("n").Words("Stored verdict").Words("Verdict now").Words("Change").Text("Why");
        foreach (var one in judged)
        {
            table.Row(
                one.MeasuredAt.ToDateTime().ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture),
                Markup.Escape(NameText.Of(screen, grouped ? one.GroupName : one.Specimen)),
                NumberText.Plain(one.ReadingIds.Count),
                one.StoredVerdict is { } stored ? DecisionText.Outcome(stored.Outcome) : "none",
                DecisionText.Outcome(one.Verdict.Outcome),
                HasChanged(one) ? "[bold]CHANGED[/]" : "",
                Markup.Escape(one.Verdict.Outcome == VerdictOutcome.Conformity ? "" : one.Verdict.Reasons.FirstOrDefault() ?? ""));
        }
        table.Write(screen);
        screen.Line($"{VerdictText.Counted(judged.Count, grouped ? "group" : "reading")}: {DecisionText.Counts(judged.Select(one => one.Verdict.Outcome))}");
        var compared = judged.Count(one => one.StoredVerdict is not null);
        if (compared > 0)
        {
            screen.Line($"{NumberText.Plain(judged.Count(HasChanged))} of {NumberText.Plain(compared)} with a stored verdict changed.");
        }
        if (judged.Count(one => one.EvaluatedAgain) is > 0 and var again)
        {
            screen.Line($"{VerdictText.Counted(again, grouped ? "group" : "reading")} evaluated again from the raw scans, since the stored evaluation was under another method.");
        }
        if (first.Caution.Length > 0)
        {
            screen.Line(Markup.Escape(first.Caution));
        }
    }
}

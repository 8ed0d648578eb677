using ClearView.V1;

using Spectre.Console;

namespace ClearView.Console.Rendering;

/// <summary>What a specimen would give at the reference thickness, beside what was measured.</summary>
internal static class ThicknessTable
{
    /// <summary>Writes it, where there is something to write.</summary>
    public static void Write(Screen screen, Evaluation evaluation, Conditions conditions)
    {
        if (evaluation.AtReferenceThickness is not { } scaled)
        {
            return;
        }
        screen.Line($"[bold]At {NumberText.Plain(scaled.ThicknessUm)} µm[/], measured at {NumberText.Plain(conditions.ThicknessUm)} µm; {Markup.Escape(scaled.RefractiveIndexSource)}");
        var table = new Table().Border(TableBorder.Simple).Collapse();
        table.AddColumn(new TableColumn("Measurand").PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Sym.").NoWrap().PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn($"At {NumberText.Plain(scaled.ThicknessUm)} µm").NoWrap().RightAligned().PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Measured").NoWrap().RightAligned().PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Unit").NoWrap().PadLeft(0).PadRight(0));
        foreach (var value in scaled.Values)
        {
            table.AddRow(
                Markup.Escape(value.Name), Markup.Escape(value.Symbol), $"{NumberText.Of(value)} {NumberText.Expanded(value)}".TrimEnd(), Measured(evaluation, value.Measurand, value.Unit), value.Unit);
        }
        if (scaled.HasBulkHazePercent)
        {
            var haze = scaled.BulkHazeUncertainty is { } known
                ? $"{NumberText.Supported(scaled.BulkHazePercent, known.ExpandedUncertainty)} {NumberText.Expanded(known)}"
                : NumberText.Usual(scaled.BulkHazePercent, "haze", "%");
            table.AddRow("Haze, model of scattering in the bulk", "H", haze, Measured(evaluation, "haze", "%"), "%");
        }
        screen.Write(table);
        screen.Line();
    }

    private static string Measured(Evaluation evaluation, string measurand, string unit) =>
        evaluation.Values.FirstOrDefault(value => value.Measurand == measurand) is { } value ? NumberText.Usual(value.Value, measurand, unit) : "-";
}

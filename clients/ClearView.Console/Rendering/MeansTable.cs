using System.Collections.Immutable;
using System.Globalization;

using ClearView.Console.Judging;
using ClearView.Optics.Evaluations;
using ClearView.V1;

using Spectre.Console;

namespace ClearView.Console.Rendering;

/// <summary>Means over specimens, and over each region of a bottle's wall.</summary>
internal static class MeansTable
{
    // A wall has many regions and a registry many measurands; a limit brings its own, and all stand in the JSON.
    private static readonly ImmutableArray<string> UsualOnWalls =
        [Measurands.LuminousTransmittance.Id, Measurands.Haze.Id, Measurands.YellownessIndexE313.Id, Measurands.LightBarrierMaximum.Id];

    /// <summary>Writes them, where there are any.</summary>
    public static void Write(Screen screen, EvaluateSpecimensResponse? summary, ImmutableArray<Limit> limits)
    {
        if (summary is null)
        {
            return;
        }
        screen.Line();
        WriteMeans(screen, summary);
        WriteWalls(screen, summary, limits);
    }

    private static void WriteMeans(Screen screen, EvaluateSpecimensResponse summary)
    {
        screen.Line($"[bold]Means[/] of {VerdictText.Counted(summary.Evaluations.Count, "specimen")}: evaluated each by itself, then averaged");
        var hasUncertainty = summary.Means.Any(mean => mean.Uncertainty is not null);
        var table = new Table().Border(TableBorder.Simple).Collapse();
        table.AddColumn(new TableColumn("Measurand").PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Sym.").NoWrap().PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Mean").NoWrap().RightAligned().PadLeft(0).PadRight(1));
        if (hasUncertainty)
        {
            table.AddColumn(new TableColumn("± U").NoWrap().PadLeft(0).PadRight(1));
        }
        table.AddColumn(new TableColumn("s").NoWrap().RightAligned().PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("n").NoWrap().RightAligned().PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Unit").NoWrap().PadLeft(0).PadRight(0));
        foreach (var mean in summary.Means)
        {
            var expanded = NumberText.Expanded(mean.Uncertainty);
            List<string> cells =
            [
                Markup.Escape(mean.Name),
                Markup.Escape(mean.Symbol),
                expanded.Length > 0
                    ? NumberText.Supported(mean.Mean, mean.Uncertainty.ExpandedUncertainty)
                    : NumberText.Usual(mean.Mean, mean.Measurand, mean.Unit),
            ];
            if (hasUncertainty)
            {
                cells.Add(expanded);
            }
            cells.AddRange([
                mean.HasStandardDeviation ? NumberText.Supported(mean.StandardDeviation, mean.StandardDeviation) : "-",
                NumberText.Plain(mean.SpecimenCount),
                mean.Unit,
            ]);
            table.AddRow([.. cells]);
        }
        screen.Write(table);
        screen.Line($"s is the standard deviation of the specimens (n − 1).{(BudgetText.Coverage(summary.Means.Select(mean => mean.Uncertainty)) is { Length: > 0 } coverage ? $" {coverage}." : "")}");
    }

    private static void WriteWalls(Screen screen, EvaluateSpecimensResponse summary, ImmutableArray<Limit> limits)
    {
        var shown = summary.WallSummaries
            .Where(wall => UsualOnWalls.Contains(wall.Measurand) || limits.Any(limit => limit.Measurand.Id == wall.Measurand))
            .ToList();
        if (shown.Count == 0)
        {
            return;
        }
        screen.Line();
        screen.Line("[bold]Regions of the wall[/]");
        var table = new Table().Border(TableBorder.Simple).Collapse();
        table.AddColumn(new TableColumn("Region").NoWrap().PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Measurand").PadLeft(0).PadRight(1));
        foreach (var heading in (string[])["Least", "Mean", "Greatest", "n", "Thinnest\nµm", "Value\nthere"])
        {
            table.AddColumn(new TableColumn(heading).NoWrap().RightAligned().PadLeft(0).PadRight(1));
        }
        table.AddColumn(new TableColumn("Unit").NoWrap().PadLeft(0).PadRight(0));
        foreach (var wall in shown.OrderBy(wall => wall.Region))
        {
            var measurand = Measurand.TryFind(wall.Measurand, out var found) ? found : null;
            var unit = measurand?.Unit ?? "";
            table.AddRow(
                ConditionsText.Region(wall.Region),
                Markup.Escape(measurand?.Name ?? wall.Measurand),
                NumberText.Usual(wall.Minimum, wall.Measurand, unit),
                NumberText.Usual(wall.Mean, wall.Measurand, unit),
                NumberText.Usual(wall.Maximum, wall.Measurand, unit),
                NumberText.Plain(wall.PlaceCount),
                wall.HasThinnestUm ? wall.ThinnestUm.ToString("0.#", CultureInfo.InvariantCulture) : "-",
                wall.HasAtThinnest ? NumberText.Usual(wall.AtThinnest, wall.Measurand, unit) : "-",
                unit);
        }
        screen.Write(table);
    }
}

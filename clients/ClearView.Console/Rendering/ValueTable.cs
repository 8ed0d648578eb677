using System.Collections.Immutable;

using ClearView.Console.Judging;

using Spectre.Console;

namespace ClearView.Console.Rendering;

/// <summary>Every value of one specimen, one line each.</summary>
internal static class ValueTable
{
    /// <summary>Writes it.</summary>
    public static void Write(Screen screen, SpecimenResult result, ImmutableArray<Limit> limits, Notebook notebook)
    {
        var evaluation = result.Evaluation!;
        var hasUncertainty = evaluation.Values.Any(value => value.Uncertainty is not null);
        var table = new Table().Border(TableBorder.Simple).Collapse();
        table.AddColumn(new TableColumn("Measurand").PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Sym.").NoWrap().PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Value").NoWrap().RightAligned().PadLeft(0).PadRight(1));
        if (hasUncertainty)
        {
            table.AddColumn(new TableColumn("± U").NoWrap().PadLeft(0).PadRight(1));
        }
        table.AddColumn(new TableColumn("Unit").NoWrap().PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Light").NoWrap().PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Standard").PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Notes").PadLeft(0).PadRight(1));
        if (!limits.IsEmpty)
        {
            table.AddColumn(new TableColumn("Result").NoWrap().PadLeft(0).PadRight(0));
        }
        foreach (var value in evaluation.Values)
        {
            var caveats = evaluation.Caveats.Where(caveat => caveat.Measurands.Count == 0 || caveat.Measurands.Contains(value.Measurand));
            List<string> cells = [Markup.Escape(value.Name), Markup.Escape(value.Symbol), NumberText.Of(value)];
            if (hasUncertainty)
            {
                cells.Add(NumberText.Expanded(value));
            }
            cells.AddRange([
                value.Unit, Markup.Escape(MethodText.ShortPair(value.LightAndObserver)), Markup.Escape(MethodText.ShortStandard(value.Standard)),
                notebook.Mark(caveats, result.Specimen),
            ]);
            if (!limits.IsEmpty)
            {
                var own = result.Verdict!.Outcomes.Where(outcome => outcome.Value == value).ToList();
                cells.Add(own.Count > 0 ? VerdictText.Coloured(own.Max(outcome => outcome.Judgement)) : "");
            }
            table.AddRow([.. cells]);
        }
        screen.Write(table);
    }
}

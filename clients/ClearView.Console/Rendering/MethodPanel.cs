using System.Collections.Immutable;

using ClearView.Console.Judging;
using ClearView.V1;

using Spectre.Console;

namespace ClearView.Console.Rendering;

/// <summary>What stands above every result: the method in full, and the limits.</summary>
internal static class MethodPanel
{
    /// <summary>Writes it.</summary>
    public static void Write(Screen screen, Method method, ImmutableArray<Limit> limits)
    {
        var rows = MethodText.Lines(method).ToList();
        if (!limits.IsEmpty)
        {
            rows.Add(("Limits", string.Join("; ", limits)));
        }
        WriteRows(screen, rows);
    }

    /// <summary>Writes labelled lines, the labels in one column.</summary>
    public static void WriteRows(Screen screen, IEnumerable<(string Label, string Text)> rows)
    {
        const int LabelWidth = 20;
        var grid = new Grid()
            .AddColumn(new GridColumn().NoWrap().Width(LabelWidth).PadLeft(0).PadRight(1))
            .AddColumn(new GridColumn().PadLeft(0).PadRight(0));
        foreach (var (label, text) in rows)
        {
            grid.AddRow($"[bold]{Markup.Escape(label)}[/]", Markup.Escape(text));
        }
        screen.Write(grid);
    }
}

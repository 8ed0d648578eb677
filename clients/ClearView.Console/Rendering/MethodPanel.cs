using System.Collections.Immutable;

using ClearView.Console.Judging;
using ClearView.V1;

using Spectre.Console;

namespace ClearView.Console.Rendering;

/// <summary>What stands above every result: the method in full, and the limits.</summary>
internal static class MethodPanel
{
    /// <summary>Writes it.</summary>
    /// <param name="screen">Where.</param>
    /// <param name="method">The method.</param>
    /// <param name="limits">The limits.</param>
    /// <param name="name">Name that the method was found under; <see langword="null"/> where it has none.</param>
    public static void Write(Screen screen, Method method, ImmutableArray<Limit> limits, MethodName? name = null)
    {
        var rows = MethodText.Lines(method).ToList();
        if (name is not null)
        {
            rows.Insert(0, ("Method", MethodText.Name(name)));
        }
        if (!limits.IsEmpty)
        {
            rows.Add(("Limits", string.Join("; ", limits)));
        }
        WriteRows(screen, rows);
    }

    /// <summary>Writes labelled lines, the labels in one column.</summary>
    public static void WriteRows(Screen screen, IEnumerable<(string Label, string Text)> rows) =>
        WriteMarkupRows(screen, rows.Select(row => (row.Label, Markup.Escape(row.Text))));

    /// <summary>Writes labelled lines of markup, the labels in one column.</summary>
    public static void WriteMarkupRows(Screen screen, IEnumerable<(string Label, string Markup)> rows)
    {
        const int LabelWidth = 20;
        var grid = new Grid()
            .AddColumn(new GridColumn().NoWrap().Width(LabelWidth).PadLeft(0).PadRight(1))
            .AddColumn(new GridColumn().PadLeft(0).PadRight(0));
        foreach (var (label, text) in rows)
        {
            grid.AddRow($"[bold]{Markup.Escape(label)}[/]", text);
        }
        screen.Write(grid);
    }
}

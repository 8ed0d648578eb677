using Spectre.Console;

namespace ClearView.Console.Rendering.Decisions;

/// <summary>A table in the one style of all screens. Cells are markup.</summary>
internal sealed class DataTable
{
    private readonly Table _table = new Table().Border(TableBorder.Simple).Collapse();

    /// <summary>Number of rows.</summary>
    public int Rows => _table.Rows.Count;

    /// <summary>Adds a column of text, folded where it is long.</summary>
    public DataTable Text(string heading)
    {
        _table.AddColumn(new TableColumn(Markup.Escape(heading)).PadLeft(0).PadRight(1));
        return this;
    }

    /// <summary>Adds a column of words that are kept on one line.</summary>
    public DataTable Words(string heading)
    {
        _table.AddColumn(new TableColumn(Markup.Escape(heading)).NoWrap().PadLeft(0).PadRight(1));
        return this;
    }

    /// <summary>Adds columns of numbers, right-aligned.</summary>
    public DataTable Numbers(params ReadOnlySpan<string> headings)
    {
        foreach (var heading in headings)
        {
            _table.AddColumn(new TableColumn(Markup.Escape(heading)).NoWrap().RightAligned().PadLeft(0).PadRight(1));
        }
        return this;
    }

    /// <summary>Adds a row.</summary>
    public void Row(params string[] cells) => _table.AddRow(cells);

    /// <summary>Writes it.</summary>
    public void Write(Screen screen) => screen.Write(_table);
}

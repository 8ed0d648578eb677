using ClearView.V1;

using Spectre.Console;

namespace ClearView.Console.Rendering;

/// <summary>Numbers the caveats of a screen, and prints them beneath what they belong to.</summary>
internal sealed class Notebook
{
    private const int SpecimensNamed = 6;

    private readonly List<string> _messages = [];
    private readonly List<List<string>> _specimens = [];

    /// <summary>The marks of caveats, for example "1 3"; the same words get the same mark.</summary>
    /// <param name="caveats">The caveats.</param>
    /// <param name="specimen">Whose they are.</param>
    public string Mark(IEnumerable<Caveat> caveats, string specimen)
    {
        var marks = new List<int>();
        foreach (var caveat in caveats)
        {
            var at = _messages.IndexOf(caveat.Message);
            if (at < 0)
            {
                at = _messages.Count;
                _messages.Add(caveat.Message);
                _specimens.Add([]);
            }
            if (!_specimens[at].Contains(specimen))
            {
                _specimens[at].Add(specimen);
            }
            if (!marks.Contains(at + 1))
            {
                marks.Add(at + 1);
            }
        }
        return string.Join(' ', marks.Select(mark => NumberText.Plain(mark)));
    }

    /// <summary>Prints every caveat beside its mark.</summary>
    /// <param name="screen">Where.</param>
    /// <param name="specimens">Specimens there are; where there are several, each caveat says whose it is.</param>
    public void Write(Screen screen, int specimens)
    {
        if (_messages.Count == 0)
        {
            return;
        }
        screen.Line("[yellow]Caveats[/]");
        var grid = new Grid().AddColumn(new GridColumn().NoWrap().PadLeft(2).PadRight(2).RightAligned()).AddColumn(new GridColumn().PadLeft(0).PadRight(0));
        for (var i = 0; i < _messages.Count; i++)
        {
            var whose = specimens == 1 ? "" : _specimens[i].Count == specimens ? "All: " : $"{Whose(_specimens[i])}: ";
            grid.AddRow(NumberText.Plain(i + 1), Markup.Escape(whose + _messages[i]));
        }
        screen.Write(grid);
        screen.Line();
    }

    private static string Whose(List<string> specimens) => specimens.Count <= SpecimensNamed
        ? string.Join(", ", specimens)
        : $"{string.Join(", ", specimens.Take(SpecimensNamed))} and {specimens.Count - SpecimensNamed} more";
}

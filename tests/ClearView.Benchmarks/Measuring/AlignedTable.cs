namespace ClearView.Benchmarks.Measuring;

/// <summary>A table that is printed row by row as its figures come: the first column to the left, the others to the right.</summary>
internal sealed class AlignedTable
{
    private readonly int[] _widths;

    /// <summary>Prints the headings; they are as wide as their columns.</summary>
    /// <param name="firstWidth">Characters of the first column.</param>
    /// <param name="headings">The headings.</param>
    public AlignedTable(int firstWidth, params string[] headings)
    {
        _widths = [firstWidth, .. headings.Skip(1).Select(heading => Math.Max(heading.Length, 7))];
        Row(headings);
    }

    /// <summary>Prints a row.</summary>
    public void Row(params string[] cells) =>
        Console.WriteLine(string.Join("  ", cells.Select((cell, i) => i == 0 ? cell.PadRight(_widths[0]) : cell.PadLeft(_widths[i]))).TrimEnd());
}

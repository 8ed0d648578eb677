using System.Collections.Immutable;
using System.Globalization;

namespace ClearView.Client.Files;

/// <summary>A scan file cannot be read as it stands. The message names file, line, column, what is there and what was expected.</summary>
public sealed class ScanFileException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="filePath">The file, as its path was given.</param>
    /// <param name="line">Line from 1; <see langword="null"/> where the whole file is meant.</param>
    /// <param name="column">Column (cell of the row) from 1; <see langword="null"/> where the whole line is meant.</param>
    /// <param name="problem">What is there.</param>
    /// <param name="expected">What would be right.</param>
    /// <param name="innerException">What led to it, if anything.</param>
    public ScanFileException(string filePath, int? line, int? column, string problem, string expected, Exception? innerException = null)
        : base(Compose(filePath, line, column, problem, expected), innerException)
    {
        FilePath = filePath;
        Line = line;
        Column = column;
        Problem = problem;
        Expected = expected;
    }

    /// <summary>The file, as its path was given.</summary>
    public string FilePath { get; }

    /// <summary>Line from 1; <see langword="null"/> where the whole file is meant.</summary>
    public int? Line { get; }

    /// <summary>Column (cell of the row) from 1; <see langword="null"/> where the whole line is meant.</summary>
    public int? Column { get; }

    /// <summary>What is there.</summary>
    public string Problem { get; }

    /// <summary>What would be right.</summary>
    public string Expected { get; }

    /// <summary>Keys of <see cref="ScanFileKeys"/> that neither file nor options give; empty for every other fault.</summary>
    public ImmutableArray<string> MissingKeys { get; init; } = [];

    private static string Compose(string filePath, int? line, int? column, string problem, string expected)
    {
        var place = filePath
            + (line is { } l ? string.Create(CultureInfo.InvariantCulture, $", line {l}") : "")
            + (column is { } c ? string.Create(CultureInfo.InvariantCulture, $", column {c}") : "");
        return $"{place}: {problem}; expected {expected}.";
    }
}

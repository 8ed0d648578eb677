namespace ClearView.Console.Options;

/// <summary>Makes options that take a number between bounds; 0 stands for what is usual, as in the contract.</summary>
internal static class NumberOptions
{
    /// <summary>A confidence level.</summary>
    public static CheckedOption<double[]> Confidence() => Level("--confidence", "Confidence of the intervals, %. [default: 95]");

    /// <summary>A level above 50 %.</summary>
    public static CheckedOption<double[]> Level(string name, string description) => new(
        name, "PERCENT", description, text => Numerals.Read(text) is > 50 and < 100 and { } value ? [value] : null, "write a number above 50 and below 100, for example 95");

    /// <summary>A share or a risk below 50 %.</summary>
    public static CheckedOption<double[]> Share(string name, string description) => new(
        name, "PERCENT", description, text => Numerals.Read(text) is > 0 and < 50 and { } value ? [value] : null, "write a number above 0 and below 50, for example 1");

    /// <summary>A number above 0.</summary>
    public static CheckedOption<double[]> Positive(string name, string description) => new(
        name, "NUMBER", description, text => Numerals.Read(text) is > 0 and { } value ? [value] : null, "write a number above 0, for example 0.5");

    /// <summary>A whole number of at least 1.</summary>
    public static CheckedOption<double[]> Count(string name, string description, int least, int most) => new(
        name, "NUMBER", description,
        text => Numerals.Read(text) is { } value && value >= least && value <= most && value == Math.Floor(value) ? [value] : null,
        $"write a whole number from {least} to {most}");
}

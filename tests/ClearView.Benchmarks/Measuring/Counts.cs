using System.Globalization;

namespace ClearView.Benchmarks.Measuring;

/// <summary>Counts on the command line.</summary>
internal static class Counts
{
    /// <summary>Reads every argument as a count.</summary>
    /// <param name="arguments">The arguments.</param>
    /// <param name="least">The smallest that makes sense.</param>
    /// <param name="otherwise">What holds where none is given.</param>
    /// <exception cref="LoadException">One is no count.</exception>
    public static int[] Read(IEnumerable<string> arguments, int least, params int[] otherwise)
    {
        int[] counts = [.. arguments.Select(argument =>
            int.TryParse(argument, NumberStyles.None, CultureInfo.InvariantCulture, out var count) && count >= least
                ? count
                : throw new LoadException($"{argument} is not a count of {least.ToString(CultureInfo.InvariantCulture)} or more."))];
        return counts.Length > 0 ? counts : otherwise;
    }
}

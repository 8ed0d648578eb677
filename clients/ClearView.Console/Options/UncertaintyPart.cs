using System.CommandLine;
using System.Globalization;

using ClearView.Client.Files;
using ClearView.Console.Commands;
using ClearView.V1;

namespace ClearView.Console.Options;

/// <summary>The options that state what is known of the errors.</summary>
internal sealed class UncertaintyPart : IMethodPart
{
    private const double UsualCoveragePercent = 95;
    private const long LargestFileBytes = 64 * 1024;

    private readonly CheckedOption<string> _sources = new(
        "--uncertainty", "KEY=VALUE,...|FILE",
        $"Standard uncertainties of the instrument, for example repeatability=0.05,zero=0.02,wavelength=0.2, or a file with one on each line. Keys: {UncertaintyText.Keys}.",
        text => text.Length > 0 ? text : null, "write KEY=VALUE,... or name a file");

    private readonly CheckedOption<double[]> _coverage = new(
        "--coverage", "PERCENT", "Coverage probability of the expanded uncertainty, %. [default: 95]",
        text => Numerals.Read(text) is > 0 and < 100 and var percent ? [percent] : null, "write a number of percent above 0 and below 100, for example 95");

    private readonly CheckedOption<object> _monteCarlo = new(
        "--monte-carlo", "SEED", "Confirm the uncertainty by a Monte Carlo run (JCGM 101); the same whole number as seed gives the same result.",
        text => int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var seed) ? seed : null, "write a whole number as seed, for example 7");

    /// <inheritdoc/>
    public string Heading => "Uncertainty";

    /// <inheritdoc/>
    public IReadOnlyList<Option> Options => [_sources.Option, _coverage.Option, _monteCarlo.Option];

    /// <inheritdoc/>
    public void Apply(ParseResult parsed, Method method)
    {
        var coverage = _coverage.Resolve(parsed);
        var seed = (int?)_monteCarlo.Resolve(parsed);
        if (_sources.Resolve(parsed) is { } sources)
        {
            var stated = Read(sources);
            stated.CoveragePercent = method.Uncertainty?.CoveragePercent ?? UsualCoveragePercent;
            stated.MonteCarlo = method.Uncertainty?.MonteCarlo;
            method.Uncertainty = stated;
        }
        if (method.Uncertainty is not { } inputs)
        {
            if (coverage is not null || seed is not null)
            {
                throw new UsageException(
                    $"{(coverage is null ? "--monte-carlo" : "--coverage")} needs the errors of the instrument: give --uncertainty too, for example --uncertainty repeatability=0.05,zero=0.02");
            }
            return;
        }
        inputs.CoveragePercent = coverage?[0] ?? inputs.CoveragePercent;
        if (seed is { } value)
        {
            inputs.MonteCarlo = new MonteCarlo { Seed = value };
        }
    }

    private static UncertaintyInputs Read(string sources)
    {
        var isInline = sources.Contains('=', StringComparison.Ordinal) && !File.Exists(sources);
        var text = isInline ? sources : FileText(sources);
        return UncertaintyText.Read(text, out var fault) ?? throw new UsageException($"--uncertainty{(isInline ? "" : $" {sources}")}: {fault}");
    }

    private static string FileText(string path)
    {
        const string Expected = "KEY=VALUE on each line, or KEY=VALUE,... on the command line";
        try
        {
            var file = new FileInfo(path);
            if (!file.Exists)
            {
                throw new ScanFileException(path, null, null, "no such file", Expected);
            }
            return file.Length <= LargestFileBytes ? File.ReadAllText(path) : throw new ScanFileException(path, null, null, "the file is larger than 64 kB", Expected);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new ScanFileException(path, null, null, e.Message.TrimEnd('.'), "a file that may be read", e);
        }
    }
}

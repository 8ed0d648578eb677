using System.CommandLine;

using ClearView.Console.Commands;
using ClearView.V1;

namespace ClearView.Console.Options;

/// <summary>The options that give limits of one measurand: by their values, or those of a stored specification.</summary>
internal sealed class LimitValues
{
    private readonly CheckedOption<double[]> _lower = Number("--lower", "Lower limit, in the measurand's unit.");
    private readonly CheckedOption<double[]> _upper = Number("--upper", "Upper limit, in the measurand's unit.");
    private readonly CheckedOption<double[]> _target = Number("--target", "Target, in the measurand's unit, between the limits.");

    private readonly CheckedOption<SpecificationName> _specification = new(
        "--specification", "NAME[@VERSION]", "Take the limits of this stored specification instead.",
        StoredNames.Specification, "write a specification's name, or NAME@VERSION");

    /// <summary>Adds the options to a command.</summary>
    /// <returns>The first of them.</returns>
    public Option AddTo(Command command)
    {
        foreach (var option in (Option[])[_lower.Option, _upper.Option, _target.Option, _specification.Option])
        {
            command.Add(option);
        }
        return _lower.Option;
    }

    /// <summary>The specification; <see langword="null"/> where none was named.</summary>
    public SpecificationName? Specification(ParseResult parsed) => _specification.Resolve(parsed);

    /// <summary>The limits by their values; <see langword="null"/> where none was given.</summary>
    /// <exception cref="UsageException">Values beside a specification, or out of order.</exception>
    public SeriesLimits? Values(ParseResult parsed)
    {
        var (lower, upper, target) = (_lower.Resolve(parsed)?[0], _upper.Resolve(parsed)?[0], _target.Resolve(parsed)?[0]);
        if (lower is null && upper is null && target is null)
        {
            return null;
        }
        if (Specification(parsed) is not null)
        {
            throw new UsageException("--specification has limits of its own; leave --lower, --upper and --target out");
        }
        if (lower >= upper)
        {
            throw new UsageException(FormattableString.Invariant($"--lower {lower} is not below --upper {upper}"));
        }
        var limits = new SeriesLimits();
        if (lower is { } least)
        {
            limits.Lower = least;
        }
        if (upper is { } greatest)
        {
            limits.Upper = greatest;
        }
        if (target is { } wanted)
        {
            limits.Target = wanted;
        }
        return limits;
    }

    private static CheckedOption<double[]> Number(string name, string description) => new(
        name, "NUMBER", description, text => Numerals.ReadWithin(text, double.MinValue, double.MaxValue), "write a number, for example 2.5");
}

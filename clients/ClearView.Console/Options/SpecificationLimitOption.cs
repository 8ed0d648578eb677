using System.CommandLine;
using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text.RegularExpressions;

using ClearView.Console.Commands;
using ClearView.Console.Judging;
using ClearView.Optics.Evaluations;
using ClearView.V1;

namespace ClearView.Console.Options;

/// <summary>The option that gives the limits of a specification: one-sided as everywhere, two-sided, with a target.</summary>
internal sealed partial class SpecificationLimitOption
{
    private readonly Option<string[]> _limits = new("--limit")
    {
        HelpName = "LIMIT",
        Arity = ArgumentArity.OneOrMore,
        AllowMultipleArgumentsPerToken = false,
        Description = "A limit, in the unit that is printed: \"haze<=3\", \"luminous_transmittance>=90\", \"haze 1..3\", "
            + "\"haze 1..3 target 2\"; repeatable, each measurand once. A value on a limit conforms.",
    };

    /// <summary>Adds the option to a command.</summary>
    /// <returns>The option.</returns>
    public Option AddTo(Command command)
    {
        _limits.Validators.Add(result =>
        {
            foreach (var text in result.Tokens.Select(token => token.Value))
            {
                if (!TryParse(text, out _, out var fault))
                {
                    result.AddError($"--limit: {fault}");
                }
            }
        });
        command.Add(_limits);
        return _limits;
    }

    /// <summary>The limits, in the order in which they were given.</summary>
    /// <exception cref="UsageException">A measurand stands twice.</exception>
    public IReadOnlyList<SpecificationLimit> Resolve(ParseResult parsed)
    {
        var limits = new List<SpecificationLimit>();
        foreach (var text in parsed.GetValue(_limits) ?? [])
        {
            if (!TryParse(text, out var limit, out var fault))
            {
                throw new InvalidOperationException(fault);
            }
            if (limits.Exists(other => other.Measurand == limit.Measurand))
            {
                throw new UsageException($"--limit names {limit.Measurand} twice; write both sides as one, for example \"{limit.Measurand} 1..3\"");
            }
            limits.Add(limit);
        }
        return limits;
    }

    /// <summary>Reads a limit.</summary>
    /// <param name="text">For example "haze&lt;=3", "haze 1..3 target 2".</param>
    /// <param name="limit">The limit, where there is one.</param>
    /// <param name="fault">What would be right, where there is none.</param>
    public static bool TryParse(string text, [NotNullWhen(true)] out SpecificationLimit? limit, [NotNullWhen(false)] out string? fault)
    {
        limit = null;
        double? target = null;
        var rest = text;
        if (TargetForm().Match(text) is { Success: true } aimed)
        {
            target = Number(aimed.Groups["target"].Value);
            rest = aimed.Groups["rest"].Value;
        }
        if (BothSidesForm().Match(rest) is { Success: true } both)
        {
            // The name and unit follow the rules of one-sided limits, so that they are read as one.
            var (lower, upper) = (both.Groups["lower"].Value, both.Groups["upper"].Value);
            if (!Limit.TryParse($"{both.Groups["id"].Value}<={upper}{both.Groups["unit"].Value}", out var one, out fault))
            {
                return false;
            }
            if (Number(lower) >= Number(upper))
            {
                fault = $"\"{text}\": the lower limit {lower} is not below the upper limit {upper}";
                return false;
            }
            limit = new SpecificationLimit { Measurand = one.Measurand.Id, Lower = Number(lower), Upper = Number(upper) };
        }
        else
        {
            if (!Limit.TryParse(rest, out var one, out fault))
            {
                if (Measurand.TryFind(rest.Trim().Split(['<', '>', ' ', '='])[0], out _))
                {
                    fault = $"\"{text}\" is not a limit; write MEASURAND<=NUMBER, MEASURAND>=NUMBER or \"MEASURAND FROM..TO\", then \"target NUMBER\" where there is one";
                }
                return false;
            }
            limit = new SpecificationLimit { Measurand = one.Measurand.Id };
            if (one.IsUpper)
            {
                limit.Upper = one.Value;
            }
            else
            {
                limit.Lower = one.Value;
            }
        }
        if (target is { } wanted)
        {
            if ((limit.HasLower && wanted < limit.Lower) || (limit.HasUpper && wanted > limit.Upper))
            {
                fault = $"\"{text}\": the target lies beyond the limits";
                limit = null;
                return false;
            }
            limit.Target = wanted;
        }
        fault = null;
        return true;
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^(?<rest>.*?)\s*,?\s*target\s+(?<target>[+-]?[0-9]+(\.[0-9]+)?)\s*(%|nm|°)?\s*$", RegexOptions.CultureInvariant)]
    private static partial Regex TargetForm();

    [GeneratedRegex(@"^\s*(?<id>[a-z0-9_]+)\s+(?<lower>[+-]?[0-9]+(\.[0-9]+)?)\s*\.\.\s*(?<upper>[+-]?[0-9]+(\.[0-9]+)?)\s*(?<unit>%|nm|°)?\s*$", RegexOptions.CultureInvariant)]
    private static partial Regex BothSidesForm();
}

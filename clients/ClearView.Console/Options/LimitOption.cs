using System.Collections.Immutable;
using System.CommandLine;

using ClearView.Console.Judging;

namespace ClearView.Console.Options;

/// <summary>The option that sets limits.</summary>
internal sealed class LimitOption
{
    private readonly Option<string[]> _limits = new("--limit")
    {
        HelpName = "LIMIT",
        Arity = ArgumentArity.OneOrMore,
        AllowMultipleArgumentsPerToken = false,
        Description = "A limit that every specimen must keep, for example \"haze<=2.0\" or \"luminous_transmittance>=90\", "
            + "in the unit that is printed; repeatable. It judges the unrounded value.",
    };

    /// <summary>Adds the option to a command.</summary>
    /// <returns>The option.</returns>
    public Option AddTo(Command command)
    {
        _limits.Validators.Add(result =>
        {
            foreach (var text in result.Tokens.Select(token => token.Value))
            {
                if (!Limit.TryParse(text, out _, out var fault))
                {
                    result.AddError($"--limit: {fault}");
                }
            }
        });
        command.Add(_limits);
        return _limits;
    }

    /// <summary>The limits, in the order in which they were given.</summary>
    public ImmutableArray<Limit> Resolve(ParseResult parsed) =>
    [
        .. (parsed.GetValue(_limits) ?? []).Select(text => Limit.TryParse(text, out var limit, out var fault)
            ? limit
            : throw new InvalidOperationException(fault)),
    ];
}

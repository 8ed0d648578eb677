using System.CommandLine;

using ClearView.V1;

namespace ClearView.Console.Options;

/// <summary>The option that chooses the decision rule. There is no default: who decides must know by which rule.</summary>
internal sealed class RuleOption
{
    private const double MostFactor = 10;

    private readonly CheckedOption<DecisionRule> _rule = new(
        "--rule", "RULE",
        "Decision rule: simple (a value within its limits is accepted, whatever its uncertainty), guarded (limits are narrowed by the "
            + "expanded uncertainty U; closer to a limit, neither is proven) or guarded=FACTOR for another multiple of U.",
        Read, "write simple, guarded or guarded=FACTOR with a factor above 0 up to 10");

    /// <summary>Adds the option to a command.</summary>
    public void AddTo(Command command) => command.Add(_rule.Option);

    /// <summary>The rule; <see langword="null"/> where none was given.</summary>
    public DecisionRule? Resolve(ParseResult parsed) => _rule.Resolve(parsed);

    private static DecisionRule? Read(string text) => text switch
    {
        "simple" => new DecisionRule { SimpleAcceptance = new SimpleAcceptance() },
        "guarded" => new DecisionRule { GuardBand = new GuardBand { Factor = 1 } },
        _ when text.StartsWith("guarded=", StringComparison.Ordinal) && Numerals.Read(text["guarded=".Length..]) is > 0 and <= MostFactor and { } factor =>
            new DecisionRule { GuardBand = new GuardBand { Factor = factor } },
        _ => null,
    };
}

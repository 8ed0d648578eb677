using System.CommandLine;

using ClearView.Optics.Evaluations;

namespace ClearView.Console.Options;

/// <summary>The option that names a measurand, or several.</summary>
internal sealed class MeasurandChoice
{
    private readonly CheckedOption<Measurand> _measurand;

    /// <summary>Creates the option.</summary>
    /// <param name="repeatable">Whether several may be named.</param>
    public MeasurandChoice(bool repeatable = false) => _measurand = new(
        "--measurand", "NAME", $"What to look at, for example haze{(repeatable ? "; repeatable" : "")}. clearview catalogue measurands lists them.",
        text => Measurand.TryFind(text, out var found) ? found : null,
        "write a measurand as \"clearview catalogue measurands\" lists them, for example haze", repeatable);

    /// <summary>Adds the option to a command.</summary>
    /// <returns>The option.</returns>
    public Option AddTo(Command command)
    {
        _measurand.Option.Required = true;
        command.Add(_measurand.Option);
        return _measurand.Option;
    }

    /// <summary>The measurand.</summary>
    public Measurand Resolve(ParseResult parsed) => _measurand.Resolve(parsed)!;

    /// <summary>All measurands, each once, in the order in which they were given.</summary>
    public IReadOnlyList<Measurand> ResolveAll(ParseResult parsed) => [.. _measurand.ResolveAll(parsed).Distinct()];
}

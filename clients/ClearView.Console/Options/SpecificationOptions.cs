using System.CommandLine;

using ClearView.Console.Commands;
using ClearView.V1;

namespace ClearView.Console.Options;

/// <summary>The options that state a specification, by a file or part by part.</summary>
internal sealed class SpecificationOptions
{
    private const string ColourDifference = "delta_";

    private readonly Option<string?> _file = new("--file") { HelpName = "FILE", Description = "Take the specification from this JSON, as \"specifications show NAME --json\" writes it, instead of the options below." };
    private readonly Option<string?> _product = new("--product") { HelpName = "TEXT", Description = "Product that it is for." };

    private readonly CheckedOption<ProductKind[]> _kind = new(
        "--kind", "KIND", "Kind of product: film or bottle.",
        text => text switch
        {
            "film" => [ProductKind.Film],
            "bottle" => [ProductKind.Bottle],
            _ => null,
        },
        "write film or bottle");

    private readonly CheckedOption<MethodName> _method = new(
        "--method", "NAME[@VERSION]", "Method that values are evaluated under, built in or stored; the version that is found is kept. A guarded rule needs one "
            + "that states uncertainties.",
        MethodOptions.ParseName, "write a method's name, or NAME@VERSION");

    private readonly CheckedOption<double[]> _specimens = NumberOptions.Count("--specimens", "Number of specimens whose means are judged.", 1, 200);
    private readonly SpecificationLimitOption _limits = new();
    private readonly RuleOption _rule = new();

    private readonly CheckedOption<ReferenceName> _reference = new(
        "--reference", "NAME[@VERSION]", "Stored reference that the limits on colour differences (delta_...) are taken from.",
        StoredNames.Reference, "write a reference's name, or NAME@VERSION");

    /// <summary>Adds the options to a command.</summary>
    /// <returns>The first of them.</returns>
    public Option AddTo(Command command)
    {
        command.Add(_file);
        command.Add(_product);
        command.Add(_kind.Option);
        command.Add(_method.Option);
        command.Add(_specimens.Option);
        _limits.AddTo(command);
        _rule.AddTo(command);
        command.Add(_reference.Option);
        return _file;
    }

    /// <summary>The specification that was stated.</summary>
    /// <exception cref="UsageException">It was not, or not in full.</exception>
    public Specification Resolve(ParseResult parsed)
    {
        var limits = _limits.Resolve(parsed);
        if (parsed.GetValue(_file) is { } file)
        {
            return limits.Count == 0 && parsed.GetValue(_product) is null && _rule.Resolve(parsed) is null && _method.Resolve(parsed) is null
                && _kind.Resolve(parsed) is null && _specimens.Resolve(parsed) is null && _reference.Resolve(parsed) is null
                    ? SpecificationFile.Read(file)
                    : throw new UsageException("--file states the whole specification; leave the other options out, or leave --file out");
        }
        var (product, kind, method, specimens, rule) =
            (parsed.GetValue(_product), _kind.Resolve(parsed), _method.Resolve(parsed), _specimens.Resolve(parsed), _rule.Resolve(parsed));
        if (product is null || kind is null || method is null || specimens is null || rule is null || limits.Count == 0)
        {
            throw new UsageException("the specification is not stated in full: give --file FILE, or all of --product, --kind, --method, --specimens, --limit and --rule");
        }
        if (_reference.Resolve(parsed) is { } reference)
        {
            var differences = limits.Where(limit => limit.Measurand.StartsWith(ColourDifference, StringComparison.Ordinal)).ToList();
            if (differences.Count == 0)
            {
                throw new UsageException("--reference needs a limit on a colour difference, for example --limit \"delta_e_2000<=1\"");
            }
            foreach (var limit in differences)
            {
                limit.ReferenceName = reference;
            }
        }
        return new Specification
        {
            Product = product,
            ProductKind = kind[0],
            MethodName = method,
            RequiredSpecimenCount = (uint)specimens[0],
            Limits = { limits },
            DecisionRule = rule,
        };
    }
}

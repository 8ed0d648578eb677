using ClearView.V1;

using Spectre.Console;

using Measurand = ClearView.Optics.Evaluations.Measurand;

namespace ClearView.Console.Rendering.Decisions;

/// <summary>Says verdicts, rules and limits in words; marks and colours only underline them.</summary>
internal static class DecisionText
{
    /// <summary>The outcome in words.</summary>
    public static string Word(VerdictOutcome outcome) => outcome switch
    {
        VerdictOutcome.Conformity => "conformity",
        VerdictOutcome.NonConformity => "non-conformity",
        VerdictOutcome.NeitherProven => "neither proven",
        _ => "not decided",
    };

    /// <summary>Mark and word, as markup.</summary>
    public static string Outcome(VerdictOutcome outcome) => outcome switch
    {
        VerdictOutcome.Conformity => $"[green]✓ {Word(outcome)}[/]",
        VerdictOutcome.NonConformity => $"[red]✗ {Word(outcome)}[/]",
        VerdictOutcome.NeitherProven => $"[yellow]~ {Word(outcome)}[/]",
        _ => $"[yellow]? {Word(outcome)}[/]",
    };

    /// <summary>How many of each outcome, the best first, as markup; outcomes that did not come are left out.</summary>
    public static string Counts(IEnumerable<VerdictOutcome> outcomes)
    {
        var all = outcomes.ToList();
        return string.Join(", ", new[] { VerdictOutcome.Conformity, VerdictOutcome.NonConformity, VerdictOutcome.NeitherProven, VerdictOutcome.NotDecided }
            .Select(outcome => (Outcome: outcome, Count: all.Count(one => one == outcome)))
            .Where(one => one.Count > 0)
            .Select(one => $"{NumberText.Plain(one.Count)} {Outcome(one.Outcome)}"));
    }

    /// <summary>The decision rule.</summary>
    public static string Rule(DecisionRule? rule) => rule?.RuleCase switch
    {
        DecisionRule.RuleOneofCase.SimpleAcceptance => "simple acceptance: a value within its limits is accepted, whatever its uncertainty (JCGM 106, 8.2)",
        DecisionRule.RuleOneofCase.GuardBand =>
            $"guard band of {(rule.GuardBand.Factor == 1 ? "" : $"{NumberText.Plain(rule.GuardBand.Factor)} × ")}U: closer to a limit, neither is proven (JCGM 106, 8.3; ISO 14253-1)",
        _ => "none",
    };

    /// <summary>Limits with their unit, for example "1 to 3 %, target 2 %".</summary>
    public static string Limits(double? lower, double? upper, double? target, string unit)
    {
        var text = (lower, upper) switch
        {
            ({ } least, { } greatest) => $"{NumberText.Plain(least)} to {Unit(greatest, unit)}",
            ({ } least, null) => $"≥ {Unit(least, unit)}",
            (null, { } greatest) => $"≤ {Unit(greatest, unit)}",
            _ => "",
        };
        return target is not { } wanted ? text : text.Length == 0 ? $"target {Unit(wanted, unit)}" : $"{text}, target {Unit(wanted, unit)}";
    }

    /// <summary>A limit of a specification, with its measurand.</summary>
    public static string Limit(SpecificationLimit limit)
    {
        var measurand = Measurand.TryFind(limit.Measurand, out var found) ? found : null;
        return $"{measurand?.Name ?? limit.Measurand} {Bounds(limit, measurand?.Unit ?? "")}";
    }

    /// <summary>The bounds of a limit of a specification.</summary>
    public static string Bounds(SpecificationLimit limit, string unit) => Limits(
        limit.HasLower ? limit.Lower : null, limit.HasUpper ? limit.Upper : null, limit.HasTarget ? limit.Target : null, unit);

    /// <summary>Limits of a series.</summary>
    public static string Bounds(SeriesLimits limits, string unit) => Limits(
        limits.HasLower ? limits.Lower : null, limits.HasUpper ? limits.Upper : null, limits.HasTarget ? limits.Target : null, unit);

    /// <summary>A specification's name and version.</summary>
    public static string Name(SpecificationName? name) => name is null ? "" : Versioned(name.Name, name.Version);

    /// <summary>A name and its version.</summary>
    public static string Versioned(string name, uint version) => version == 0 ? name : $"{name}, version {NumberText.Plain(version)}";

    /// <summary>A share in %, with one decimal; what would read 0 or 100 says that it is not.</summary>
    public static string Share(double fraction) => fraction switch
    {
        > 0 and < 0.0005 => "< 0.1 %",
        < 1 and > 0.9995 => "> 99.9 %",
        _ => $"{NumberText.Fixed(100 * fraction, 1)} %",
    };

    /// <summary>A probability in %, with one decimal; it is never quite 0 or 100.</summary>
    public static string Probability(double fraction) => fraction switch
    {
        < 0.0005 => "< 0.1 %",
        > 0.9995 => "> 99.9 %",
        _ => Share(fraction),
    };

    /// <summary>A p-value with three decimals; what would read 0 says that it is not.</summary>
    public static string PValue(double fraction) => fraction < 0.0005 ? "< 0.001" : NumberText.Fixed(fraction, 3);

    /// <summary>A number with its unit; a degree stands close.</summary>
    public static string Unit(double value, string unit) => Unit(NumberText.Plain(value), unit);

    /// <summary>A written number with its unit; a degree stands close.</summary>
    public static string Unit(string number, string unit) => unit switch
    {
        "" => number,
        "°" => $"{number}°",
        _ => $"{number} {unit}",
    };

    /// <summary>A colour in CIELAB.</summary>
    public static string Colour(CielabColour colour) =>
        $"L* {NumberText.Fixed(colour.LStar, 2)}, a* {NumberText.Fixed(colour.AStar, 2)}, b* {NumberText.Fixed(colour.BStar, 2)}";

    /// <summary>A stretch of time.</summary>
    public static string Span(MeasuredSpan? span) => (span?.MeasuredFrom, span?.MeasuredBefore) switch
    {
        ({ } from, { } before) => $"{SpecimenDetail.Time(from)} to {SpecimenDetail.Time(before)}",
        ({ } from, null) => $"from {SpecimenDetail.Time(from)}",
        (null, { } before) => $"before {SpecimenDetail.Time(before)}",
        _ => "all times",
    };

    /// <summary>Writes sentences, one to a line, with a mark that keeps them apart where they are folded.</summary>
    public static void WriteSentences(Screen screen, IEnumerable<string> sentences)
    {
        var grid = new Grid().AddColumn(new GridColumn().NoWrap().PadLeft(2).PadRight(1)).AddColumn(new GridColumn().PadLeft(0).PadRight(0));
        var any = false;
        foreach (var sentence in sentences)
        {
            grid.AddRow("-", Markup.Escape(sentence));
            any = true;
        }
        if (any)
        {
            screen.Write(grid);
        }
    }
}

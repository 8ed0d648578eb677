using System.Collections.Immutable;

using ClearView.Plotting.Charts;
using ClearView.V1;

namespace ClearView.Plotting.Decisions;

/// <summary>A limit scaled to its tolerance: the lower limit lies at 0, the upper at 1.</summary>
/// <remarks>
/// With one limit only, the tolerance is open: the row then reaches so far from the limit that value, uncertainty and guard band
/// can be seen, and its tolerance ends at the row's end.
/// </remarks>
internal sealed class VerdictRow
{
    /// <summary>Left end of every row.</summary>
    public const double From = -0.35;

    /// <summary>Right end of every row.</summary>
    public const double To = 1.35;

    private const double UncertaintiesOfRow = 8;
    private const double DistancesOfRow = 1.5;
    private const double LeastShare = 1e-3;

    private readonly double _zero;
    private readonly double _unit;

    private VerdictRow(LimitVerdict verdict, DecisionRule? rule, double middle)
    {
        (Verdict, Middle) = (verdict, middle);
        SpecificationLimit limit = verdict.Limit ?? new SpecificationLimit();
        double expanded = verdict.HasExpandedUncertainty ? verdict.ExpandedUncertainty : 0;
        if (limit is { HasLower: true, HasUpper: true } && limit.Upper > limit.Lower)
        {
            (_zero, _unit) = (limit.Lower, limit.Upper - limit.Lower);
        }
        else
        {
            double edge = limit.HasUpper ? limit.Upper : limit.Lower;
            double distance = verdict.HasValue ? Math.Abs(verdict.Value - edge) : 0;
            double target = limit.HasTarget ? Math.Abs(limit.Target - edge) : 0;
            _unit = Math.Max(Math.Max(DistancesOfRow * Math.Max(distance, target), UncertaintiesOfRow * expanded), LeastShare * Math.Max(Math.Abs(edge), LeastShare));
            _zero = limit.HasUpper ? edge - _unit : edge;
        }

        string suffix = Wording.Suffix(verdict.Unit);
        Limits =
        [
            .. limit.HasLower ? [(Place(limit.Lower), $"≥ {Wording.Number(limit.Lower)}{suffix}")] : ImmutableArray<(double, string)>.Empty,
            .. limit.HasUpper ? [(Place(limit.Upper), $"≤ {Wording.Number(limit.Upper)}{suffix}")] : ImmutableArray<(double, string)>.Empty,
        ];
        Target = limit.HasTarget ? Place(limit.Target) : null;
        Value = verdict.HasValue ? Place(verdict.Value) : null;
        Reach = expanded / _unit;
        ToleranceFrom = limit.HasLower ? Place(limit.Lower) : From;
        ToleranceTo = limit.HasUpper ? Place(limit.Upper) : To;
        double guard = rule?.RuleCase == DecisionRule.RuleOneofCase.GuardBand ? rule.GuardBand.Factor * Reach : 0;
        Guards = guard > 0 ? [.. Limits.Select(one => (Math.Max(one.Place - guard, From), Math.Min(one.Place + guard, To)))] : [];
    }

    public LimitVerdict Verdict { get; }

    /// <summary>Height of the row's middle.</summary>
    public double Middle { get; }

    /// <summary>Each limit with its words.</summary>
    public ImmutableArray<(double Place, string Text)> Limits { get; }

    public double? Target { get; }

    public double? Value { get; }

    /// <summary>Expanded uncertainty in widths of the tolerance.</summary>
    public double Reach { get; }

    public double ToleranceFrom { get; }

    public double ToleranceTo { get; }

    /// <summary>The stretches around the limits in which neither is proven.</summary>
    public ImmutableArray<(double From, double To)> Guards { get; }

    public bool IsOutside => Value is < From or > To;

    /// <summary>The value with its uncertainty and unit.</summary>
    public string Result => Verdict is { HasExpandedUncertainty: true, ExpandedUncertainty: > 0 }
        ? $"{Digits.Beside(Verdict.Value, Verdict.ExpandedUncertainty)} ± {Digits.Two(Verdict.ExpandedUncertainty)}{Wording.Suffix(Verdict.Unit)}"
        : $"{Wording.Number(Verdict.Value)}{Wording.Suffix(Verdict.Unit)}, U unknown";

    public static VerdictRow Of(LimitVerdict verdict, DecisionRule? rule, double middle) => new(verdict, rule, middle);

    private double Place(double value) => (value - _zero) / _unit;
}

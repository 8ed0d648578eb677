using ClearView.Contract.Validation;
using ClearView.V1;

namespace ClearView.Contract.Studies;

/// <summary>Rules for limits that a series is held against.</summary>
internal static class SeriesLimitsRules
{
    public static void Check(SeriesLimits limits, string path, Violations violations)
    {
        if (!limits.HasLower && !limits.HasUpper)
        {
            violations.Add(path, $"had neither a lower nor an upper limit; expected one of them or both.");
        }

        bool lower = limits.HasLower && violations.RequireFigure($"{path}.lower", limits.Lower);
        bool upper = limits.HasUpper && violations.RequireFigure($"{path}.upper", limits.Upper);
        if (lower && upper && limits.Lower >= limits.Upper)
        {
            violations.Add($"{path}.lower", $"was {limits.Lower}; expected below the upper limit, {limits.Upper}.");
            return;
        }

        if (!limits.HasTarget || !violations.RequireFigure($"{path}.target", limits.Target))
        {
            return;
        }

        if (lower && limits.Target < limits.Lower)
        {
            violations.Add($"{path}.target", $"was {limits.Target}; expected {limits.Lower} or more, the lower limit.");
        }

        if (upper && limits.Target > limits.Upper)
        {
            violations.Add($"{path}.target", $"was {limits.Target}; expected {limits.Upper} or less, the upper limit.");
        }
    }
}

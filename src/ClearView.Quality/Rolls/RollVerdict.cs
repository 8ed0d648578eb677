using System.Globalization;

using ClearView.Quality.Specifications;

namespace ClearView.Quality.Rolls;

/// <summary>Whether a roll meets its limits, by the share of its readings beyond them (simple acceptance).</summary>
/// <param name="Verdict">Conformity, non-conformity, or not decided for a roll without readings.</param>
/// <param name="Reason">Why, in words.</param>
public sealed record RollVerdict(Verdict Verdict, string Reason)
{
    internal static RollVerdict Of(RollSummary summary, RollLimits limits)
    {
        if (summary.Count == 0)
        {
            return new RollVerdict(Verdict.NotDecided, "the roll has no readings");
        }

        string reason = string.Create(
            CultureInfo.InvariantCulture,
            $"{summary.CountOutsideLimits} of {summary.Count} readings ({summary.ShareOutsideLimits * 100:0.###} %) lie beyond the limits, {limits.LargestShareOutside * 100:0.###} % may");
        return new RollVerdict(summary.ShareOutsideLimits <= limits.LargestShareOutside ? Verdict.Conformity : Verdict.NonConformity, reason);
    }
}

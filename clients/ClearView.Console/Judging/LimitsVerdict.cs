using System.Collections.Immutable;

using ClearView.V1;

namespace ClearView.Console.Judging;

/// <summary>What all limits together say about one specimen: as bad as the worst of them.</summary>
/// <param name="Judgement">The worst.</param>
/// <param name="Outcomes">One per limit, in their order.</param>
internal sealed record LimitsVerdict(Judgement Judgement, ImmutableArray<LimitOutcome> Outcomes)
{
    /// <summary>Judges an evaluation.</summary>
    /// <returns>The verdict; <see langword="null"/> where there are no limits.</returns>
    public static LimitsVerdict? Of(Evaluation evaluation, ImmutableArray<Limit> limits)
    {
        if (limits.IsEmpty)
        {
            return null;
        }
        var outcomes = limits
            .Select(limit =>
            {
                var value = evaluation.Values.FirstOrDefault(one => one.Measurand == limit.Measurand.Id);
                return new LimitOutcome(limit, value, limit.Judge(value?.Value));
            })
            .ToImmutableArray();
        return new LimitsVerdict(outcomes.Max(outcome => outcome.Judgement), outcomes);
    }
}

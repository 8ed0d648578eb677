using System.Collections.Immutable;

namespace ClearView.Quality.Specifications;

/// <summary>The verdict on a reading under one version of a specification.</summary>
/// <param name="Specification">The specification, of one version.</param>
/// <param name="Rule">The decision rule.</param>
/// <param name="Verdict">The verdict on all limits together.</param>
/// <param name="Limits">The verdict on each limit, in their order.</param>
/// <param name="Reasons">Why, in words: first what holds for the whole, then what decided each limit that does not conform.</param>
public sealed record Judgement(
    Specification Specification,
    DecisionRule Rule,
    Verdict Verdict,
    ImmutableArray<LimitJudgement> Limits,
    ImmutableArray<string> Reasons);

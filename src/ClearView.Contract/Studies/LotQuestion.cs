using System.Collections.Immutable;

using ClearView.Optics.Evaluations;

namespace ClearView.Contract.Studies;

/// <summary>A request to compare lots, checked.</summary>
/// <param name="Measurands">What was measured, in the order asked.</param>
/// <param name="Given">The values that the caller brought along, one table per measurand; <see langword="null"/> where stored ones are asked for.</param>
public sealed record LotQuestion(ImmutableArray<Measurand> Measurands, ImmutableArray<MeasuredLots>? Given);

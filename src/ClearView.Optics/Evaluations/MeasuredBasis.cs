using ClearView.Optics.Colorimetry;

namespace ClearView.Optics.Evaluations;

/// <summary>What a value rests on.</summary>
/// <param name="Standard">Standard that defines the measurand, with its procedure.</param>
/// <param name="LightAndObserver">Illuminant and observer it holds for.</param>
/// <param name="Weighting">How the spectrum was weighted, in words.</param>
/// <param name="IntervalNm">Interval of the scan, nm; <see langword="null"/> for irregular grids and hazemeter readings.</param>
public sealed record MeasuredBasis(string Standard, LightAndObserver LightAndObserver, string Weighting, double? IntervalNm);

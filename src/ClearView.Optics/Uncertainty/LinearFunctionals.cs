using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;

namespace ClearView.Optics.Uncertainty;

/// <summary>The eight weighted sums from which every colour and haze measurand follows.</summary>
/// <remarks>
/// Because they are linear in the spectra, the covariance of the spectra carries over to them exactly; only the small step from
/// them to a measurand is curved.
/// </remarks>
internal sealed class LinearFunctionals
{
    /// <summary>Number of sums.</summary>
    public const int Count = 8;

    /// <summary>Positions of the sums.</summary>
    public const int LuminousTotal = 0;
    public const int LuminousDiffuse = 1;
    public const int X = 2;
    public const int Y = 3;
    public const int Z = 4;
    public const int LegacyX = 5;
    public const int LegacyY = 6;
    public const int LegacyZ = 7;

    private readonly WeightingTable _luminous;
    private readonly WeightingTable _colour;
    private readonly WeightingTable _legacy;

    public LinearFunctionals(ReadingEvaluator evaluator)
    {
        _luminous = evaluator.LuminousTable;
        _colour = evaluator.ColourTable;
        _legacy = WeightingTable.For(evaluator.Grid, LightAndObserver.CDegree2);
    }

    /// <summary>Weights of a sum; whether they fall on the diffuse spectrum rather than on the total one.</summary>
    public ReadOnlySpan<double> Weights(int functional, out bool onDiffuse)
    {
        onDiffuse = functional == LuminousDiffuse;
        return functional switch
        {
            LuminousTotal or LuminousDiffuse => _luminous.Y,
            X => _colour.X,
            Y => _colour.Y,
            Z => _colour.Z,
            LegacyX => _legacy.X,
            LegacyY => _legacy.Y,
            LegacyZ => _legacy.Z,
            _ => throw new ArgumentOutOfRangeException(nameof(functional)),
        };
    }

    /// <summary>The sums of a total and a diffuse vector (spectra, or deviations of them).</summary>
    public void Project(ReadOnlySpan<double> total, ReadOnlySpan<double> diffuse, Span<double> sums)
    {
        for (int j = 0; j < Count; j++)
        {
            ReadOnlySpan<double> weights = Weights(j, out bool onDiffuse);
            ReadOnlySpan<double> values = onDiffuse ? diffuse : total;
            sums[j] = values.IsEmpty ? 0 : VectorMath.Dot(weights, values);
        }
    }
}

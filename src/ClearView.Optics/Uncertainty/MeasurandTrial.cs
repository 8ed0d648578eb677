using System.Collections.Immutable;

using ClearView.Optics.Evaluations;
using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;

namespace ClearView.Optics.Uncertainty;

/// <summary>Evaluates measurands of drawn spectra or drawn weighted sums. Not thread-safe: one per run.</summary>
internal sealed class MeasurandTrial
{
    private readonly ReadingEvaluator _evaluator;
    private readonly ImmutableArray<Measurand> _measurands;
    private readonly double[] _angles;
    private readonly double[] _sums = new double[LinearFunctionals.Count];
    private readonly double[] _centre = new double[LinearFunctionals.Count];
    private readonly double[] _total;
    private readonly double[] _diffuse;
    private readonly TransmittanceScans _drawn;

    public MeasurandTrial(ReadingEvaluator evaluator, TransmittanceScans scans, ImmutableArray<Measurand> measurands)
    {
        _evaluator = evaluator;
        _measurands = measurands;
        Functionals = new LinearFunctionals(evaluator);
        _total = scans.Total.Fractions.ToArray();
        _diffuse = scans.Diffuse is null ? [] : scans.Diffuse.Fractions.ToArray();
        _drawn = new TransmittanceScans(
            TransmittanceSpectrum.Over(scans.Grid, _total), scans.Diffuse is null ? null : TransmittanceSpectrum.Over(scans.Grid, _diffuse));
        Functionals.Project(_total, _diffuse, _centre);
        _angles = new double[measurands.Length];
        Array.Fill(_angles, double.NaN);
        var best = new DualReading(_centre, evaluator.Method, evaluator.ColourTable.White);
        for (int j = 0; j < _angles.Length; j++)
        {
            if (measurands[j].IsAngle)
            {
                _angles[j] = measurands[j].Differentiable!(best).Value;
            }
        }
    }

    public LinearFunctionals Functionals { get; }

    /// <summary>The weighted sums of the scans themselves.</summary>
    public ReadOnlySpan<double> Centre => _centre;

    /// <summary>Evaluates drawn spectra; NaN where a measurand has no value.</summary>
    public void Evaluate(ReadOnlySpan<double> total, ReadOnlySpan<double> diffuse, Span<double> outputs)
    {
        total.CopyTo(_total);
        diffuse.CopyTo(_diffuse);
        Functionals.Project(_total, _diffuse, _sums);
        Evaluate(_sums, outputs);
    }

    /// <summary>Evaluates drawn weighted sums, and measurands of the spectra from those last drawn.</summary>
    public void Evaluate(ReadOnlySpan<double> sums, Span<double> outputs)
    {
        var reading = new DualReading(sums, _evaluator.Method, _evaluator.ColourTable.White);
        for (int j = 0; j < outputs.Length; j++)
        {
            double value = _measurands[j].Differentiable is { } differentiable
                ? differentiable(reading).Value
                : _measurands[j].Spectral!(_drawn, _evaluator.Method)?.Value ?? double.NaN;

            // An angle is taken on the branch nearest to the estimate, or 359° and 1° would be far apart.
            outputs[j] = double.IsNaN(_angles[j]) ? value : _angles[j] + Math.IEEERemainder(value - _angles[j], 360);
        }
    }
}

using System.Collections.Immutable;

using BenchmarkDotNet.Attributes;
using BenchmarkDotNet.Order;

using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;

namespace ClearView.Benchmarks.Evaluations;

/// <summary>One 81-point reading (380-780 nm at 5 nm) to haze, luminous transmittance, XYZ, CIELAB and yellowness index.</summary>
/// <remarks>
/// The baseline is what a careful programmer would write without vectors: the same sums and formulas in one plain scalar
/// loop, on the same tables. Ratios hold within one run only. Op/s is readings per second on one thread.
/// </remarks>
[MemoryDiagnoser]
[Orderer(SummaryOrderPolicy.Declared)]
public class ReadingEvaluatorBenchmarks
{
    private readonly WavelengthGrid _grid = WavelengthGrid.Between(380, 780, 5);
    private readonly Method _method = new(
        HazeStandard.AstmD1003ProcedureB, LightAndObserver.CDegree2, LightAndObserver.D65Degree10, [YellownessKind.AstmE313]);

    private double[] _total = [];
    private double[] _diffuse = [];
    private double[] _luminousY = [];
    private double[] _x = [];
    private double[] _y = [];
    private double[] _z = [];
    private ReadingEvaluator? _evaluator;
    private TransmittanceScans? _scans;
    private Tristimulus _white;

    /// <summary>Makes a slightly yellow, slightly hazy film, and the tables.</summary>
    [GlobalSetup]
    public void Prepare()
    {
        _total = [.. Enumerable.Range(0, _grid.Count).Select(i => 0.92 - (0.05 * Math.Exp(-i / 12.0)))];
        _diffuse = [.. Enumerable.Range(0, _grid.Count).Select(i => 0.02 * Math.Pow(550 / _grid[i], 1.6))];
        _evaluator = new ReadingEvaluator(_grid, _method);
        _luminousY = _evaluator.LuminousTable.Y.ToArray();
        _x = _evaluator.ColourTable.X.ToArray();
        _y = _evaluator.ColourTable.Y.ToArray();
        _z = _evaluator.ColourTable.Z.ToArray();
        _white = _evaluator.ColourTable.White;
        _scans = new TransmittanceScans(
            TransmittanceSpectrum.FromFractions(_grid, _total), TransmittanceSpectrum.FromFractions(_grid, _diffuse));
    }

    /// <summary>The five sums in one scalar loop, then the formulas.</summary>
    [Benchmark(Baseline = true)]
    public double PlainScalarLoop()
    {
        double luminous = 0;
        double diffuse = 0;
        double x = 0;
        double y = 0;
        double z = 0;
        for (int i = 0; i < _total.Length; i++)
        {
            luminous += _luminousY[i] * _total[i];
            diffuse += _luminousY[i] * _diffuse[i];
            x += _x[i] * _total[i];
            y += _y[i] * _total[i];
            z += _z[i] * _total[i];
        }

        double fx = Math.Cbrt(x / _white.X);
        double fy = Math.Cbrt(y / _white.Y);
        double fz = Math.Cbrt(z / _white.Z);
        double haze = diffuse / luminous;
        double yellowness = 100 * ((1.3013 * x) - (1.1498 * z)) / y;
        return haze + yellowness + ((116 * fy) - 16) + (500 * (fx - fy)) + (200 * (fy - fz));
    }

    /// <summary>The prepared evaluator: all numbers of <see cref="ReadingValues"/>.</summary>
    [Benchmark]
    public ReadingValues PreparedEvaluator() => _evaluator!.Evaluate(_total, _diffuse);

    /// <summary>The whole evaluation with caveats, dominant wavelength and every measurand's provenance.</summary>
    [Benchmark]
    public ImmutableArray<MeasuredValue> WholeEvaluation() => Evaluator.Evaluate(_scans!, _method).Values;
}

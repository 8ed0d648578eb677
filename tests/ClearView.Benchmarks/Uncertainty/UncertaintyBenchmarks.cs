using System.Collections.Immutable;

using BenchmarkDotNet.Attributes;
using BenchmarkDotNet.Order;

using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;
using ClearView.Optics.Uncertainty;

namespace ClearView.Benchmarks.Uncertainty;

/// <summary>Uncertainty of every measurand of one 81-point reading, against evaluating it without.</summary>
/// <remarks>Seven sources: repeatability per wavelength and six that move whole spectra. Ratios hold within one run only.</remarks>
[MemoryDiagnoser]
[Orderer(SummaryOrderPolicy.Declared)]
public class UncertaintyBenchmarks
{
    private readonly WavelengthGrid _grid = WavelengthGrid.Between(380, 780, 5);
    private readonly Method _method = new(
        HazeStandard.AstmD1003ProcedureB, LightAndObserver.CDegree2, LightAndObserver.D65Degree10, [YellownessKind.AstmE313]);

    private readonly UncertaintyInputs _inputs = new()
    {
        RepeatabilityPercent = 0.05,
        ZeroOffsetPercent = 0.02,
        HundredLineDriftPercent = 0.05,
        LinearityPercent = 0.05,
        WavelengthShiftNm = 0.1,
        StrayLightPercent = 0.01,
        BandpassNm = 5,
    };

    private readonly MonteCarloOptions _tenThousand = new(1, 0.95, 1, 5_000, 10_000);

    private TransmittanceScans? _scans;
    private ReadingEvaluator? _evaluator;
    private ReadingUncertaintyEvaluator? _uncertainty;
    private ImmutableArray<Measurand> _measurands;
    private ImmutableArray<UncertaintySource> _sources;

    /// <summary>Makes a slightly yellow, slightly hazy film, and the tables.</summary>
    [GlobalSetup]
    public void Prepare()
    {
        double[] total = [.. Enumerable.Range(0, _grid.Count).Select(i => 0.92 - (0.05 * Math.Exp(-i / 12.0)))];
        double[] diffuse = [.. Enumerable.Range(0, _grid.Count).Select(i => 0.02 * Math.Pow(550 / _grid[i], 1.6))];
        _scans = new TransmittanceScans(TransmittanceSpectrum.FromFractions(_grid, total), TransmittanceSpectrum.FromFractions(_grid, diffuse));
        _evaluator = new ReadingEvaluator(_grid, _method);
        _uncertainty = new ReadingUncertaintyEvaluator(_grid, _method, _inputs, 0.95);
        _measurands = [.. Evaluator.Evaluate(_scans, _method).Values.Select(value => value.Measurand)];
        _sources = _inputs.ToSources(_scans);
    }

    /// <summary>Evaluation with every measurand, no uncertainty.</summary>
    [Benchmark(Baseline = true)]
    public ImmutableArray<MeasuredValue> PlainEvaluation() => Evaluator.Evaluate(_scans!, _method).Values;

    /// <summary>Evaluation, then linear uncertainty of every measurand with its budget: prepared evaluator, sources made anew for the reading.</summary>
    [Benchmark]
    public UncertaintyReport EvaluationWithLinearUncertainty() => _uncertainty!.Evaluate(Evaluator.Evaluate(_scans!, _method));

    /// <summary>The same, with everything prepared anew for the one reading.</summary>
    [Benchmark]
    public UncertaintyReport EvaluationWithUnpreparedReport() => UncertaintyReport.Of(Evaluator.Evaluate(_scans!, _method), _inputs, 0.95, null);

    /// <summary>Ten thousand trials of every measurand, whole spectra drawn.</summary>
    [Benchmark]
    public ImmutableArray<MonteCarloResult> TenThousandTrials() =>
        MonteCarloPropagation.Run(_evaluator!, _scans!, _sources, _measurands, _tenThousand);
}

using System.Collections.Immutable;

using ClearView.Optics.Evaluations;
using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;

namespace ClearView.Optics.Uncertainty;

/// <summary>Uncertainty of means over specimens: the spread of their values, and the errors that all readings share.</summary>
/// <remarks>
/// <para>Type A: s/√n of the specimens' values, with n − 1 degrees of freedom (JCGM 100, 4.2.3 and 4.2.6). It holds what differs
/// from specimen to specimen, and with it the repeatability of the readings; repeatability is therefore not counted again
/// (JCGM 100, 4.3.10), nor is <see cref="UncertaintyInputs.Specimens"/>, which is the same spread in the spectra.</para>
/// <para>Type B: an error of the instrument that moves whole spectra is the same for all specimens and does not average out. The
/// mean moves by the mean of what each specimen's value moves by, ȳ = Σ yₖ/n, dȳ = Σ gₖ·dₖ/n, each with the gradient and the
/// deviation of its own scans (JCGM 100, 5.2.2, errors fully correlated); their degrees of freedom are infinite.</para>
/// <para>Hazemeter readings have no spectra: they get an uncertainty only where no error of whole spectra is given.</para>
/// </remarks>
internal sealed class SpecimenMeanUncertainty
{
    private readonly CoverageFactors _factors;
    private readonly ImmutableArray<UncertaintySource> _sources;
    private readonly ImmutableArray<ReadingSensitivity> _specimens;
    private readonly bool _isAvailable;

    public SpecimenMeanUncertainty(ImmutableArray<Evaluation> specimens, UncertaintyInputs inputs, double coverageProbability)
    {
        _factors = new CoverageFactors(coverageProbability);
        UncertaintyInputs shared = inputs with { RepeatabilityPercent = 0, RepeatabilityPercentByWavelength = null, Specimens = [] };
        var spread = new UncertaintySource(
            SpecimenSpread.Name, SourceCorrelation.WholeSpectrum, ErrorDistribution.Normal, specimens.Length - 1, []);
        TransmittanceScans[] scans = [.. specimens.Select(e => e.Scans).OfType<TransmittanceScans>()];
        var propagations = new Dictionary<WavelengthGrid, LinearPropagation>();
        _specimens = [.. scans.Select(s => Propagation(s.Grid).Sensitivity(s, shared.ToSources(s)))];
        _sources = [spread, .. scans.Length > 0 ? shared.ToSources(scans[0]) : []];
        _isAvailable = scans.Length == specimens.Length || !shared.MovesWholeSpectra;

        LinearPropagation Propagation(WavelengthGrid grid) => propagations.TryGetValue(grid, out LinearPropagation? known)
            ? known
            : propagations[grid] = new LinearPropagation(new ReadingEvaluator(grid, specimens[0].Method));
    }

    /// <summary>The uncertainty of one mean; <see langword="null"/> where it has none.</summary>
    public MeasurandUncertainty? Of(SpecimenMean mean)
    {
        if (!_isAvailable)
        {
            return null;
        }

        var contributions = new double[_sources.Length];
        contributions[0] = mean.StandardError;
        if (_sources.Length > 1)
        {
            var moves = new double[_sources.Length - 1];
            foreach (ReadingSensitivity specimen in _specimens)
            {
                specimen.Moves(mean.Measurand, moves);
                for (int s = 0; s < moves.Length; s++)
                {
                    contributions[s + 1] += moves[s] / mean.Count;
                }
            }
        }

        for (int s = 1; s < contributions.Length; s++)
        {
            contributions[s] = Math.Abs(contributions[s]);
        }

        return contributions.All(double.IsFinite)
            ? LinearPropagation.Summarise(mean.Measurand, mean.Mean, _sources, contributions, _factors)
            : null;
    }
}

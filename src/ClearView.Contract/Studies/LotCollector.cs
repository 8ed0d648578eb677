using System.Collections.Immutable;

using ClearView.Optics.Evaluations;
using ClearView.Quality.Lots;

namespace ClearView.Contract.Studies;

/// <summary>Gathers lots from stored readings: each reading is a specimen, those with the same specimen name in a lot count as one, by their mean.</summary>
/// <remarks>Keeps values only, not the readings. Not safe for use by several threads at once.</remarks>
/// <param name="measurands">What to gather, in the order of the answer.</param>
/// <param name="lots">Names of the lots, in the order of the answer.</param>
public sealed class LotCollector(ImmutableArray<Measurand> measurands, IReadOnlyList<string> lots)
{
    // The factor that an instrument's expanded uncertainty is stated with.
    private const double CoverageFactor = 2;

    private readonly Dictionary<(string Lot, Measurand Measurand), Specimens> _gathered = [];
    private readonly Dictionary<Measurand, (double Sum, int Count)> _uncertainties = [];

    /// <summary>Takes one reading, in the order of measurement.</summary>
    /// <param name="lot">Its lot.</param>
    /// <param name="specimen">Its specimen.</param>
    /// <param name="evaluation">Its evaluation; a measurand that it lacks is left out.</param>
    public void Add(string lot, string specimen, V1.Evaluation evaluation)
    {
        ArgumentNullException.ThrowIfNull(evaluation);
        foreach (Measurand measurand in measurands)
        {
            if (evaluation.Values.FirstOrDefault(value => value.Measurand == measurand.Id) is not { } found)
            {
                continue;
            }

            if (!_gathered.TryGetValue((lot, measurand), out Specimens? specimens))
            {
                specimens = new Specimens();
                _gathered.Add((lot, measurand), specimens);
            }

            specimens.Add(specimen, found.Value);
            if (found.Uncertainty is { StandardUncertainty: > 0 } uncertainty)
            {
                (double sum, int count) = _uncertainties.GetValueOrDefault(measurand);
                _uncertainties[measurand] = (sum + (CoverageFactor * uncertainty.StandardUncertainty), count + 1);
            }
        }
    }

    /// <summary>What lots lack for a comparison, a sentence each; empty where nothing.</summary>
    public ImmutableArray<string> Lacking =>
    [
        .. from measurand in measurands
           from lot in lots
           where !_gathered.ContainsKey((lot, measurand))
           select $"Lot {lot} has no stored reading with {measurand.Id}.",
    ];

    /// <summary>The lots, measurand by measurand; only where nothing is <see cref="Lacking"/>.</summary>
    public ImmutableArray<MeasuredLots> ToLots() =>
    [
        .. measurands.Select(measurand => new MeasuredLots(measurand, [.. lots.Select(lot => new Lot(lot, _gathered[(lot, measurand)].Means()))])
        {
            InstrumentExpandedUncertainty = _uncertainties.TryGetValue(measurand, out (double Sum, int Count) known) ? known.Sum / known.Count : null,
        }),
    ];

    // Values of the readings of each specimen, specimens in the order of their first reading.
    private sealed class Specimens
    {
        private readonly List<List<double>> _values = [];
        private readonly Dictionary<string, List<double>> _byName = new(StringComparer.Ordinal);

        public void Add(string name, double value)
        {
            if (!_byName.TryGetValue(name, out List<double>? values))
            {
                values = [];
                _byName.Add(name, values);
                _values.Add(values);
            }

            values.Add(value);
        }

        public ImmutableArray<double> Means() => [.. _values.Select(values => values.Average())];
    }
}

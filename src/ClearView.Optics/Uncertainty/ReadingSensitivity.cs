using ClearView.Optics.Evaluations;
using ClearView.Optics.Transmission;

namespace ClearView.Optics.Uncertainty;

/// <summary>One reading with its sources carried to the weighted sums: ready to give any measurand's uncertainty.</summary>
internal sealed class ReadingSensitivity(TransmittanceScans scans, Method method, DualReading reading, SourceProjection[] sources)
{
    /// <summary>What each source contributes to a measurand's standard uncertainty.</summary>
    /// <param name="measurand">The measurand.</param>
    /// <param name="contributions">Takes one standard uncertainty per source.</param>
    /// <param name="value">Its value.</param>
    /// <returns>Whether it has a value and a derivative here: at a kink, such as the chroma of an exactly neutral colour, it has none.</returns>
    public bool TryContributions(Measurand measurand, Span<double> contributions, out double value)
    {
        double sum = 0;
        if (measurand.Differentiable is { } differentiable)
        {
            Dual quantity = differentiable(reading);
            value = quantity.Value;
            for (int s = 0; s < sources.Length; s++)
            {
                sum += contributions[s] = sources[s].Contribution(quantity);
            }
        }
        else if (measurand.Spectral!(scans, method) is { } quantity)
        {
            value = quantity.Value;
            for (int s = 0; s < sources.Length; s++)
            {
                sum += contributions[s] = sources[s].Contribution(quantity);
            }
        }
        else
        {
            value = double.NaN;
        }

        return double.IsFinite(value) && double.IsFinite(sum);
    }

    /// <summary>What each source, one error on whole spectra, moves a measurand by; the sign tells the direction.</summary>
    /// <param name="measurand">The measurand.</param>
    /// <param name="moves">Takes one signed move per source; NaN where the measurand has no derivative.</param>
    public void Moves(Measurand measurand, Span<double> moves)
    {
        if (measurand.Differentiable is { } differentiable)
        {
            Dual quantity = differentiable(reading);
            for (int s = 0; s < sources.Length; s++)
            {
                moves[s] = sources[s].Move(quantity);
            }
        }
        else if (measurand.Spectral!(scans, method) is { } quantity)
        {
            for (int s = 0; s < sources.Length; s++)
            {
                moves[s] = sources[s].Move(quantity);
            }
        }
        else
        {
            moves.Fill(double.NaN);
        }
    }
}

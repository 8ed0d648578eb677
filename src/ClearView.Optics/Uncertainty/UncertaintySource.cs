using System.Collections.Immutable;

namespace ClearView.Optics.Uncertainty;

/// <summary>One source of error, as deviations of the total and diffuse spectra at one standard uncertainty.</summary>
/// <remarks>
/// A source that acts per wavelength has one component: its standard uncertainties. A source that moves whole spectra has one
/// component per independent error: the deviation that one standard uncertainty of it brings about. Immutable.
/// </remarks>
public sealed class UncertaintySource
{
    private readonly ImmutableArray<(double[] Total, double[] Diffuse)> _components;

    internal UncertaintySource(
        string name,
        SourceCorrelation correlation,
        ErrorDistribution distribution,
        double degreesOfFreedom,
        ImmutableArray<(double[] Total, double[] Diffuse)> components)
    {
        if (!(degreesOfFreedom >= 1))
        {
            throw new ArgumentOutOfRangeException(nameof(degreesOfFreedom), degreesOfFreedom, "expected 1 or more.");
        }

        Name = name;
        Correlation = correlation;
        Distribution = distribution;
        DegreesOfFreedom = degreesOfFreedom;
        _components = components;
    }

    /// <summary>Name, for the budget.</summary>
    public string Name { get; }

    /// <summary>Whether it acts per wavelength or on whole spectra.</summary>
    public SourceCorrelation Correlation { get; }

    /// <summary>Distribution of its error.</summary>
    public ErrorDistribution Distribution { get; }

    /// <summary>Degrees of freedom of its standard uncertainty; infinite where it is taken as known.</summary>
    public double DegreesOfFreedom { get; }

    /// <summary>Number of independent errors that move whole spectra; 1 for a source that acts per wavelength.</summary>
    public int ComponentCount => _components.Length;

    /// <summary>Deviation of the total spectrum, fraction, one per wavelength.</summary>
    /// <param name="component">Which component, from 0.</param>
    public ReadOnlySpan<double> TotalDeviation(int component) => _components[component].Total;

    /// <summary>Deviation of the diffuse spectrum, fraction, one per wavelength; empty where diffuse was not measured.</summary>
    /// <param name="component">Which component, from 0.</param>
    public ReadOnlySpan<double> DiffuseDeviation(int component) => _components[component].Diffuse;

    /// <summary>The source behind a scaling of total transmittance with the given slope at each wavelength; diffuse is left out.</summary>
    internal UncertaintySource Through(double[] slopes) => new(
        Name,
        Correlation,
        Distribution,
        DegreesOfFreedom,
        [.. _components.Select(component => (component.Total.Zip(slopes, (deviation, slope) => deviation * slope).ToArray(), Array.Empty<double>()))]);
}

using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;

using ClearView.Optics.Transmission;
using ClearView.Optics.Uncertainty;

namespace ClearView.Optics.Evaluations;

/// <summary>A quantity that is measured: its name, unit, and how to read it from an <see cref="Evaluation"/>.</summary>
/// <remarks>
/// The one registry that limits, charts, exports and clients share. A new measurand is one more entry in
/// <see cref="Measurands"/>. Equal when the identifiers are: a band of the user's own is made anew for each evaluation.
/// </remarks>
public sealed class Measurand : IEquatable<Measurand>
{
    private readonly Func<Evaluation, double?> _value;
    private readonly Func<Evaluation, MeasuredBasis> _basis;

    internal Measurand(
        string id,
        string name,
        string symbol,
        string unit,
        Func<Evaluation, double?> value,
        Func<Evaluation, MeasuredBasis> basis,
        Func<DualReading, Dual>? differentiable,
        string needs,
        Func<TransmittanceScans, Method, SpectralGradient?>? spectral = null)
    {
        Id = id;
        Needs = needs;
        Name = name;
        Symbol = symbol;
        Unit = unit;
        _value = value;
        _basis = basis;
        Differentiable = differentiable;
        Spectral = spectral;
    }

    /// <summary>Every measurand, in the order in which they are shown.</summary>
    public static ImmutableArray<Measurand> All => Measurands.All;

    /// <summary>Identifier on the wire and on the command line, for example "luminous_transmittance".</summary>
    public string Id { get; }

    /// <summary>Name in the field's words.</summary>
    public string Name { get; }

    /// <summary>Symbol.</summary>
    public string Symbol { get; }

    /// <summary>Unit: "%", "nm", "°" or empty.</summary>
    public string Unit { get; }

    /// <summary>What the method or the scans must bring, in words; empty where every measurement gives it.</summary>
    public string Needs { get; }

    /// <summary>Whether it is an angle, which has no plain mean and comes round every 360°.</summary>
    public bool IsAngle => Unit == "°";

    /// <summary>The measurand written in weighted sums that carry derivatives; <see langword="null"/> where it does not follow from them.</summary>
    internal Func<DualReading, Dual>? Differentiable { get; }

    /// <summary>The measurand with its derivatives with respect to the spectra; <see langword="null"/> where it follows from weighted sums.</summary>
    internal Func<TransmittanceScans, Method, SpectralGradient?>? Spectral { get; }

    /// <summary>Finds a measurand by its identifier.</summary>
    /// <param name="id">For example "haze".</param>
    /// <param name="measurand">The measurand, where there is one.</param>
    public static bool TryFind(string? id, [NotNullWhen(true)] out Measurand? measurand)
    {
        measurand = All.FirstOrDefault(candidate => candidate.Id == id);
        return measurand is not null;
    }

    /// <summary>Reads its value; <see langword="null"/> where the evaluation has none.</summary>
    /// <param name="evaluation">The evaluation.</param>
    public MeasuredValue? Read(Evaluation evaluation)
    {
        ArgumentNullException.ThrowIfNull(evaluation);
        return _value(evaluation) is { } value && double.IsFinite(value)
            ? new MeasuredValue(this, value, _basis(evaluation))
            : null;
    }

    /// <inheritdoc/>
    public bool Equals(Measurand? other) => ReferenceEquals(this, other) || (other is not null && Id == other.Id);

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as Measurand);

    /// <inheritdoc/>
    public override int GetHashCode() => StringComparer.Ordinal.GetHashCode(Id);

    /// <summary>The identifier.</summary>
    public override string ToString() => Id;

    /// <summary>Whether two measurands are the same.</summary>
    public static bool operator ==(Measurand? left, Measurand? right) => left?.Equals(right) ?? right is null;

    /// <summary>Whether two measurands differ.</summary>
    public static bool operator !=(Measurand? left, Measurand? right) => !(left == right);
}

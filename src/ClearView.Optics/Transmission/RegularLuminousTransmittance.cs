namespace ClearView.Optics.Transmission;

/// <summary>Regular luminous transmittance: the share of the incident luminous flux that passes the specimen without being scattered, τt − τd.</summary>
/// <remarks>
/// <para>Held as a fraction. Noise may carry a measured value a little outside [0, 1]; it is kept as it is, never clamped.</para>
/// <para>Part of <see cref="LuminousTransmittance"/>; the rest of it is <see cref="DiffuseLuminousTransmittance"/>. The default value is zero.</para>
/// </remarks>
public readonly record struct RegularLuminousTransmittance
{
    private RegularLuminousTransmittance(double fraction) => Fraction = fraction;

    /// <summary>The value as a fraction.</summary>
    public double Fraction { get; }

    /// <summary>The value in percent.</summary>
    public double Percent => Fraction * 100;

    /// <summary>Takes a fraction.</summary>
    /// <param name="fraction">A finite number.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="fraction"/> is NaN or infinite.</exception>
    public static RegularLuminousTransmittance FromFraction(double fraction) => new(Finite.Required(fraction));

    /// <summary>Takes percent.</summary>
    /// <param name="percent">A finite number.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="percent"/> is NaN or infinite.</exception>
    public static RegularLuminousTransmittance FromPercent(double percent) => new(Finite.Required(percent) / 100);
}

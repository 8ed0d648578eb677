namespace ClearView.Optics.Transmission;

/// <summary>Total luminous transmittance τt: the share of the incident luminous flux that passes the specimen, however it is scattered (ASTM D1003, ISO 13468).</summary>
/// <remarks>
/// <para>Held as a fraction. Noise may carry a measured value a little outside [0, 1]; it is kept as it is, never clamped.</para>
/// <para>Not the same as <see cref="DiffuseLuminousTransmittance"/> or <see cref="RegularLuminousTransmittance"/>; the types do not add. The default value is zero.</para>
/// </remarks>
public readonly record struct LuminousTransmittance
{
    private LuminousTransmittance(double fraction) => Fraction = fraction;

    /// <summary>The value as a fraction.</summary>
    public double Fraction { get; }

    /// <summary>The value in percent.</summary>
    public double Percent => Fraction * 100;

    /// <summary>Takes a fraction.</summary>
    /// <param name="fraction">A finite number.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="fraction"/> is NaN or infinite.</exception>
    public static LuminousTransmittance FromFraction(double fraction) => new(Finite.Required(fraction));

    /// <summary>Takes percent.</summary>
    /// <param name="percent">A finite number.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="percent"/> is NaN or infinite.</exception>
    public static LuminousTransmittance FromPercent(double percent) => new(Finite.Required(percent) / 100);
}

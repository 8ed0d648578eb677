namespace ClearView.Optics.Transmission;

/// <summary>Haze: the share of the transmitted light that deviates from the incident beam by more than 2.5° through forward scattering (ASTM D1003, ISO 14782).</summary>
/// <remarks>
/// <para>100 · τd / τt in percent. Held as a fraction. Noise may carry the haze of a clear specimen a little below 0; it is
/// kept as it is, never clamped.</para>
/// <para>Means nothing without its standard, illuminant and observer. The default value is zero.</para>
/// </remarks>
public readonly record struct Haze
{
    private Haze(double fraction) => Fraction = fraction;

    /// <summary>The value as a fraction.</summary>
    public double Fraction { get; }

    /// <summary>The value in percent.</summary>
    public double Percent => Fraction * 100;

    /// <summary>Takes a fraction.</summary>
    /// <param name="fraction">A finite number.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="fraction"/> is NaN or infinite.</exception>
    public static Haze FromFraction(double fraction) => new(Finite.Required(fraction));

    /// <summary>Takes percent.</summary>
    /// <param name="percent">A finite number.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="percent"/> is NaN or infinite.</exception>
    public static Haze FromPercent(double percent) => new(Finite.Required(percent) / 100);

    /// <summary>Haze as the ratio of diffuse to total luminous transmittance (ASTM D1003, calculation clause).</summary>
    /// <param name="diffuse">Diffuse luminous transmittance.</param>
    /// <param name="total">Total luminous transmittance.</param>
    /// <returns>The haze, or <see langword="null"/> where the total is not above 0, so that haze is undefined.</returns>
    public static Haze? FromTransmittances(DiffuseLuminousTransmittance diffuse, LuminousTransmittance total) =>
        total.Fraction > 0 ? FromFraction(diffuse.Fraction / total.Fraction) : null;
}

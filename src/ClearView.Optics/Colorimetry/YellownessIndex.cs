namespace ClearView.Optics.Colorimetry;

/// <summary>A yellowness index: above 0 yellowish, below 0 bluish. A number without unit.</summary>
/// <param name="Value">The index.</param>
/// <param name="LightAndObserver">The illuminant and observer that it holds for.</param>
/// <param name="Standard">The standard that defines it.</param>
public readonly record struct YellownessIndex(double Value, LightAndObserver LightAndObserver, string Standard)
{
    /// <summary>YI after ASTM E313: 100 (Cx·X − Cz·Z) / Y, with the printed coefficients of the pair.</summary>
    /// <param name="colour">Tristimulus values under the coefficients' illuminant and observer.</param>
    /// <param name="coefficients">The printed coefficients.</param>
    public static YellownessIndex E313(Tristimulus colour, E313Coefficients coefficients)
    {
        ArgumentNullException.ThrowIfNull(coefficients);
        double value = 100 * ((coefficients.Cx * colour.X) - (coefficients.Cz * colour.Z)) / colour.Y;
        return new YellownessIndex(value, coefficients.LightAndObserver, "ASTM E313");
    }

    /// <summary>YI after ISO 17223: 100 (Cx·X − Cz·Z) / Y.</summary>
    /// <param name="colour">Tristimulus values under the coefficients' illuminant and observer.</param>
    /// <param name="coefficients">Coefficients of a pair in <see cref="Colorimetry.Iso17223.All"/>.</param>
    /// <exception cref="ArgumentException">The standard does not know the pair.</exception>
    public static YellownessIndex Iso17223(Tristimulus colour, E313Coefficients coefficients)
    {
        ArgumentNullException.ThrowIfNull(coefficients);
        return Colorimetry.Iso17223.All.Contains(coefficients)
            ? E313(colour, coefficients) with { Standard = "ISO 17223" }
            : throw new ArgumentException($"ISO 17223 does not know {coefficients.LightAndObserver}.", nameof(coefficients));
    }

    /// <summary>YI after the withdrawn ASTM D1925: 100 (1.28 X − 1.06 Z) / Y, illuminant C and 2° observer only.</summary>
    /// <param name="colourUnderCDegree2">Tristimulus values under illuminant C and the 2° observer.</param>
    public static YellownessIndex D1925(Tristimulus colourUnderCDegree2)
    {
        Tristimulus c = colourUnderCDegree2;
        return new YellownessIndex(100 * ((1.28 * c.X) - (1.06 * c.Z)) / c.Y, LightAndObserver.CDegree2, "ASTM D1925 (withdrawn)");
    }
}

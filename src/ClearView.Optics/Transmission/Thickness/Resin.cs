using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;

using ClearView.Optics.Spectra;

namespace ClearView.Optics.Transmission.Thickness;

/// <summary>A resin with its refractive index.</summary>
/// <param name="Id">Identifier, for example "pmma".</param>
/// <param name="Name">Name in words.</param>
/// <param name="Index">Its refractive index, with source.</param>
public sealed record Resin(string Id, string Name, IRefractiveIndex Index)
{
    private const string Sultanova = "Sultanova, Kasarova, Nikolov 2009, one-term Sellmeier, 437-1052 nm";

    private static readonly SpectralRange SultanovaRange = new(437, 1052);

    /// <summary>Poly(methyl methacrylate).</summary>
    public static Resin Pmma { get; } = Dispersive("pmma", "Poly(methyl methacrylate)", 1.1819, 0.011313);

    /// <summary>Polycarbonate.</summary>
    public static Resin Polycarbonate { get; } = Dispersive("pc", "Polycarbonate", 1.4182, 0.021304);

    /// <summary>Polystyrene.</summary>
    public static Resin Polystyrene { get; } = Dispersive("ps", "Polystyrene", 1.4435, 0.020216);

    /// <summary>Cellulose.</summary>
    public static Resin Cellulose { get; } = Dispersive("cellulose", "Cellulose", 1.124, 0.011087);

    /// <summary>Poly(ethylene terephthalate), amorphous.</summary>
    public static Resin Pet { get; } = Handbook("pet", "Poly(ethylene terephthalate)", 1.575);

    /// <summary>Polypropylene.</summary>
    public static Resin Polypropylene { get; } = Handbook("pp", "Polypropylene", 1.49);

    /// <summary>Low-density polyethylene.</summary>
    public static Resin LowDensityPolyethylene { get; } = Handbook("pe-ld", "Low-density polyethylene", 1.51);

    /// <summary>Poly(vinyl chloride), rigid.</summary>
    public static Resin Pvc { get; } = Handbook("pvc", "Poly(vinyl chloride)", 1.54);

    /// <summary>Every resin.</summary>
    public static ImmutableArray<Resin> All { get; } =
        [Pmma, Polycarbonate, Polystyrene, Cellulose, Pet, Polypropylene, LowDensityPolyethylene, Pvc];

    /// <summary>Finds a resin by its identifier.</summary>
    /// <param name="id">For example "pmma".</param>
    /// <param name="resin">The resin, where there is one.</param>
    public static bool TryFind(string? id, [NotNullWhen(true)] out Resin? resin)
    {
        resin = All.FirstOrDefault(candidate => string.Equals(candidate.Id, id, StringComparison.OrdinalIgnoreCase));
        return resin is not null;
    }

    private static Resin Dispersive(string id, string name, double b, double c) =>
        new(id, name, new SellmeierIndex(b, c, SultanovaRange, $"{name}, {Sultanova}"));

    private static Resin Handbook(string id, string name, double index) =>
        new(id, name, new ConstantIndex(index, $"{name}, handbook value at 589 nm, from memory"));
}

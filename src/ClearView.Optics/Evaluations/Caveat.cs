using System.Collections.Immutable;

using ClearView.Optics.Spectra;

namespace ClearView.Optics.Evaluations;

/// <summary>Something to be wary of in an evaluation.</summary>
/// <param name="Code">What.</param>
/// <param name="Message">In words, with the figures that led to it.</param>
/// <param name="Measurands">The measurands it touches; empty when it touches all.</param>
/// <param name="Range">The wavelengths it concerns, where it concerns some.</param>
public sealed record Caveat(CaveatCode Code, string Message, ImmutableArray<Measurand> Measurands, SpectralRange? Range);

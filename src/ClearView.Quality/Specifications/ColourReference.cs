using ClearView.Optics.Colorimetry;

namespace ClearView.Quality.Specifications;

/// <summary>The colour of a stored reading, frozen in the specification that refers to it.</summary>
/// <param name="ReadingId">Identifier of the stored reading.</param>
/// <param name="Colour">Its CIELAB colour, under the illuminant and observer of the specification's method.</param>
public sealed record ColourReference(string ReadingId, CieLab Colour);

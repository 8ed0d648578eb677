using ClearView.Optics.Colorimetry;

namespace ClearView.Quality.Specifications;

/// <summary>The colour that differences are taken from, frozen in the specification that refers to it.</summary>
/// <param name="Name">What it is called, for example the name of a stored reference with its version.</param>
/// <param name="Colour">Its CIELAB colour, under the illuminant and observer of the specification's method.</param>
public sealed record ColourReference(string Name, CieLab Colour);

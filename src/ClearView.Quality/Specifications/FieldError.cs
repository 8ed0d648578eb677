namespace ClearView.Quality.Specifications;

/// <summary>Why one field of a draft cannot stand.</summary>
/// <param name="Field">Path of the field, for example "limits[0].upper".</param>
/// <param name="Message">What is wrong, with the value and what was expected.</param>
public sealed record FieldError(string Field, string Message);

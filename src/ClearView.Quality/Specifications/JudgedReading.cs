using System.Collections.Immutable;

namespace ClearView.Quality.Specifications;

/// <summary>What is held against a specification: the values of one specimen, or the means of several.</summary>
/// <param name="MethodName">Name of the method that the values were evaluated under.</param>
/// <param name="MethodVersion">Its version.</param>
/// <param name="SpecimenCount">Number of specimens that the values rest on.</param>
/// <param name="Values">The values.</param>
public sealed record JudgedReading(string MethodName, int MethodVersion, int SpecimenCount, ImmutableArray<MeasuredQuantity> Values);

namespace ClearView.Records.Model;

/// <summary>Which readings of other servers to list.</summary>
/// <param name="After">Behind this place in the order of recording.</param>
/// <param name="Known">Places behind it that need not be listed again.</param>
/// <param name="Measurands">Identifiers of the measurands whose values are wanted; a reading with none of them is left out.</param>
public sealed record OthersQuery(long After, IReadOnlySet<long> Known, IReadOnlyCollection<string> Measurands);

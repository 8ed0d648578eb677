using System.Collections.Immutable;

namespace ClearView.Records.Model;

/// <summary>What other servers recorded.</summary>
/// <param name="Readings">Readings in the order of recording. Those behind <paramref name="Through"/> may not be all yet.</param>
/// <param name="Through">Everything up to this place was looked at, and nothing will be added there.</param>
/// <param name="Seen">Every place that was looked at, with or without values; those behind <paramref name="Through"/> need not be listed again.</param>
/// <param name="IsBroken">Whether it is too much or too long ago to be listed, or corrects earlier readings: nothing is, and series have to be read anew.</param>
public sealed record OthersPage(ImmutableArray<OtherReading> Readings, long Through, ImmutableArray<long> Seen, bool IsBroken);

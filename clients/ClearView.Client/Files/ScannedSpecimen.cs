using System.Collections.Immutable;

using ClearView.V1;

namespace ClearView.Client.Files;

/// <summary>One specimen of a scan file, ready for the wire.</summary>
/// <param name="FilePath">The file, as its path was given.</param>
/// <param name="Line">The line it stands on, from 1: the header row of scans, the specimen's own row of hazemeter readings.</param>
/// <param name="Measurement">The measurement, with scans as they stand in the file; ranges are not judged here but where it is evaluated.</param>
/// <param name="Notes">What the reader left aside, in words; empty when it used everything.</param>
public sealed record ScannedSpecimen(string FilePath, int Line, Measurement Measurement, ImmutableArray<string> Notes);

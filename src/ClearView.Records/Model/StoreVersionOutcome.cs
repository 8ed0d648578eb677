namespace ClearView.Records.Model;

/// <summary>What came of handing a document to the store.</summary>
/// <param name="Version">The newest document under the name, as it is stored.</param>
/// <param name="AlreadyStored">
/// <see langword="true"/> when the newest version said the same already, so that nothing was written;
/// <see langword="false"/> when the version is new.
/// </param>
public sealed record StoreVersionOutcome(StoredVersion Version, bool AlreadyStored);

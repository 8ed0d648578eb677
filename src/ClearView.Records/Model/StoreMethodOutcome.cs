namespace ClearView.Records.Model;

/// <summary>What came of handing a method to the store.</summary>
/// <param name="Method">The newest method under the name, as it is stored.</param>
/// <param name="AlreadyStored">
/// <see langword="true"/> when the newest version said the same already, so that nothing was written;
/// <see langword="false"/> when the version is new.
/// </param>
public sealed record StoreMethodOutcome(StoredMethod Method, bool AlreadyStored);

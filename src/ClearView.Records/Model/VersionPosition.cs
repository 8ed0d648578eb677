namespace ClearView.Records.Model;

/// <summary>A place between two documents of a list; it stays valid while versions are added.</summary>
/// <param name="Name">Name of the last document before the place.</param>
/// <param name="Version">Version of that document.</param>
public readonly record struct VersionPosition(string Name, long Version);

namespace ClearView.Records.Model;

/// <summary>A place between two methods of a list; it stays valid while methods are added.</summary>
/// <param name="Name">Name of the last method before the place.</param>
/// <param name="Version">Version of that method.</param>
public readonly record struct MethodPosition(string Name, long Version);

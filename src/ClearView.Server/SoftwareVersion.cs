using System.Reflection;

namespace ClearView.Server;

/// <summary>The version that is stored with every reading.</summary>
internal static class SoftwareVersion
{
    /// <summary>Version of this assembly, with the revision of its sources where the build knew it.</summary>
    public static string Text { get; } =
        typeof(SoftwareVersion).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()!.InformationalVersion;
}

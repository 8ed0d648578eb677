using System.Reflection;

namespace ClearView.Console.Options;

/// <summary>The version of this program.</summary>
internal static class ProgramVersion
{
    /// <summary>For example "0.1.0", without the build.</summary>
    public static string Text { get; } =
        (typeof(ProgramVersion).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "unknown").Split('+')[0];
}

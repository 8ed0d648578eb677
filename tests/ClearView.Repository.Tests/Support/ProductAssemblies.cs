using System.Reflection;
using System.Runtime.CompilerServices;

namespace ClearView.Repository.Tests.Support;

/// <summary>The assemblies of src/ and clients/, as the tests were built against them.</summary>
internal static class ProductAssemblies
{
    /// <summary>All of them: one per project under src/ and clients/.</summary>
    public static IReadOnlyList<Assembly> All { get; } =
    [
        .. Tree.FilesEndingIn(".csproj")
            .Where(file => !file.StartsWith("tests/", StringComparison.Ordinal))
            .Select(project => Load(AssemblyName(project))),
    ];

    /// <summary>One of them, by its name.</summary>
    public static Assembly Load(string name) => Assembly.LoadFrom(Path.Combine(AppContext.BaseDirectory, name + ".dll"));

    /// <summary>The types of an assembly that people wrote: neither the compiler's nor those generated from the contract.</summary>
    public static IEnumerable<Type> WrittenTypes(this Assembly assembly) =>
        assembly.GetTypes().Where(type =>
            type.Namespace is { } name
            && name.StartsWith("ClearView.", StringComparison.Ordinal)
            && name != "ClearView.V1"
            && !name.StartsWith("ClearView.V1.", StringComparison.Ordinal)
            && !type.IsDefined(typeof(CompilerGeneratedAttribute), inherit: false));

    private static string AssemblyName(string project) =>
        ProjectFile.Property(project, "AssemblyName") ?? Path.GetFileNameWithoutExtension(project);
}

using System.Xml.Linq;

namespace ClearView.Repository.Tests.Support;

/// <summary>What a project file says.</summary>
internal static class ProjectFile
{
    /// <summary>A property of a project, or <see langword="null"/> where the project does not set it.</summary>
    public static string? Property(string project, string name) =>
        XDocument.Parse(Tree.Read(project)).Descendants(name).FirstOrDefault()?.Value;

    /// <summary>The project that a source file belongs to: the nearest one above it.</summary>
    public static string? Above(string file)
    {
        for (string? folder = Path.GetDirectoryName(file); !string.IsNullOrEmpty(folder); folder = Path.GetDirectoryName(folder))
        {
            string? project = Tree.FilesEndingIn(".csproj").FirstOrDefault(candidate => Path.GetDirectoryName(candidate) == folder);
            if (project is not null)
            {
                return project;
            }
        }

        return null;
    }
}

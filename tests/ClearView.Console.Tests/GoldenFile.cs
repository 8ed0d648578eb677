namespace ClearView.Console.Tests;

/// <summary>Compares a screen with the one that was looked at. Golden/README.md says how they are renewed.</summary>
internal static class GoldenFile
{
    private const string RenewVariable = "CLEARVIEW_RENEW_GOLDEN";

    /// <summary>Compares, or renews where the variable asks for it.</summary>
    public static void Check(string name, string actual)
    {
        if (Environment.GetEnvironmentVariable(RenewVariable) == "1")
        {
            File.WriteAllText(Path.Combine(SourceFolder(), $"{name}.txt"), actual);
            return;
        }
        var path = Path.Combine(AppContext.BaseDirectory, "Golden", $"{name}.txt");
        Assert.True(File.Exists(path), $"There is no golden file {name}.txt; set {RenewVariable}=1 to write it.");
        Assert.Equal(File.ReadAllText(path), actual);
    }

    private static string SourceFolder()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder!.FullName, "ClearView.Console.Tests.csproj")))
        {
            folder = folder.Parent;
        }
        return Path.Combine(folder.FullName, "Golden");
    }
}

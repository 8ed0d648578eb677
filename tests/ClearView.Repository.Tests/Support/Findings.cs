namespace ClearView.Repository.Tests.Support;

/// <summary>What a rule found wrong: a test fails with all of it at once.</summary>
internal static class Findings
{
    /// <summary>Fails with one line per finding, or passes when there is none.</summary>
    /// <param name="rule">The rule, in words.</param>
    /// <param name="findings">Each place at fault, and why.</param>
    public static void AssertNone(string rule, IEnumerable<string> findings)
    {
        string[] all = [.. findings];
        if (all.Length > 0)
        {
            Assert.Fail($"{rule}{Environment.NewLine}{string.Join(Environment.NewLine, all.Select(finding => "  " + finding))}");
        }
    }
}

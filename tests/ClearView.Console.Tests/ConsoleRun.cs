using ClearView.Console.Commands;
using ClearView.Console.Rendering;

using Microsoft.Extensions.Time.Testing;

namespace ClearView.Console.Tests;

/// <summary>One command line, run in this process as it would be in a pipe.</summary>
/// <param name="Arguments">The command line, quoted as in a shell.</param>
/// <param name="ExitCode">Exit code.</param>
/// <param name="Output">Standard output.</param>
/// <param name="Errors">Standard error.</param>
internal sealed record ConsoleRun(string Arguments, int ExitCode, string Output, string Errors)
{
    /// <summary>When it is, for every test.</summary>
    public static readonly DateTimeOffset Now = new(2026, 3, 10, 12, 0, 0, TimeSpan.Zero);

    /// <summary>Runs a command line.</summary>
    public static async Task<ConsoleRun> RunAsync(string arguments)
    {
        // Samples are named as a person would name them, from the folder they are in.
        Directory.SetCurrentDirectory(AppContext.BaseDirectory);
        using var output = new StringWriter();
        using var errors = new StringWriter();
        var exitCode = await ClearViewRoot.RunAsync(
            [.. System.CommandLine.Parsing.CommandLineParser.SplitCommandLine(arguments)],
            new Screen(output, errors),
            new FakeTimeProvider(Now),
            TestContext.Current.CancellationToken);
        // The help calls the program by the name of its executable, which is that of the tests here.
        return new ConsoleRun(arguments, exitCode, output.ToString().Replace("ClearView.Console.Tests", "clearview", StringComparison.Ordinal), errors.ToString());
    }

    /// <summary>Everything a person sees, for a golden file.</summary>
    public override string ToString() =>
        $"$ clearview {Arguments}\n{Output}{(Errors.Length > 0 ? $"--- standard error\n{Errors}" : "")}--- exit code {ExitCode}\n";
}

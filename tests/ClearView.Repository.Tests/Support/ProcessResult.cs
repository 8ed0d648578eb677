using System.Diagnostics;

namespace ClearView.Repository.Tests.Support;

/// <summary>What a program printed and how it ended.</summary>
internal sealed record ProcessResult(int ExitCode, string Output, string Error)
{
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(60);

    /// <summary>Runs a program to its end, without standard input, within a minute.</summary>
    public static ProcessResult Run(string folder, string program, IEnumerable<string> arguments)
    {
        ProcessStartInfo start = new(program, arguments)
        {
            WorkingDirectory = folder,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        using Process process = Process.Start(start) ?? throw new InvalidOperationException($"{program} did not start.");
        process.StandardInput.Close();
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        Task<string> error = process.StandardError.ReadToEndAsync();
        if (!process.WaitForExit(Limit))
        {
            process.Kill(entireProcessTree: true);
            throw new TimeoutException($"{program} did not end within {Limit.TotalSeconds} s.");
        }

        process.WaitForExit();
        return new ProcessResult(process.ExitCode, output.GetAwaiter().GetResult(), error.GetAwaiter().GetResult());
    }
}

using System.Diagnostics;
using System.Globalization;

using ClearView.Optics.Tests.Reference;

namespace ClearView.Quality.Tests.Reference;

/// <summary>Asks tests/tools/reference_distributions.py, which integrates the definitions with 30 digits.</summary>
internal static class ReferencePython
{
    private const string Python = "/usr/bin/python3";

    private static readonly TimeSpan Limit = TimeSpan.FromMinutes(3);

    /// <summary>Lower and upper tail for each question, as the program describes them.</summary>
    public static (double Lower, double Upper)[] Ask(IReadOnlyList<string> questions)
    {
        ProcessStartInfo start = new(Python, [RepositoryRoot.PathOf("tests/tools/reference_distributions.py")])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        using Process process = Process.Start(start) ?? throw new InvalidOperationException($"{Python} did not start.");
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        Task<string> error = process.StandardError.ReadToEndAsync();
        process.StandardInput.Write(string.Join('\n', questions) + "\n");
        process.StandardInput.Close();
        if (!process.WaitForExit(Limit))
        {
            process.Kill(entireProcessTree: true);
            throw new TimeoutException($"The program did not answer within {Limit.TotalSeconds} s.");
        }

        process.WaitForExit();
        Assert.True(process.ExitCode == 0, $"Does the machine have python3-mpmath, which `bash tests/run` installs? {error.Result}");
        double[][] rows =
        [
            .. output.Result.Split('\n', StringSplitOptions.RemoveEmptyEntries)
                .Select(line => line.Split(' ').Select(text => double.Parse(text, CultureInfo.InvariantCulture)).ToArray()),
        ];
        Assert.Equal(questions.Count, rows.Length);
        return [.. rows.Select(row => (row[0], row[1]))];
    }
}

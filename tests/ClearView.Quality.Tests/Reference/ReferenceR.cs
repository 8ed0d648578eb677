using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;

using ClearView.Optics.Tests.Reference;

namespace ClearView.Quality.Tests.Reference;

/// <summary>Asks R, a statistics system outside this project, through a script below tests/tools.</summary>
/// <remarks>
/// One question per line: a name and vectors of numbers, separated by tabs; one answer per line: numbers. Where R is missing
/// the test fails: a comparison that did not take place is not a comparison that passed.
/// </remarks>
internal static class ReferenceR
{
    private static readonly TimeSpan Limit = TimeSpan.FromMinutes(2);

    /// <summary>Asks one question.</summary>
    /// <param name="script">File name below tests/tools.</param>
    /// <param name="question">Name of the question, as the script lists it.</param>
    /// <param name="vectors">Its vectors of numbers.</param>
    public static double[] Ask(string script, string question, params double[][] vectors) =>
        AskMany(script, [(question, vectors)])[0];

    /// <summary>Asks several questions in one run of R.</summary>
    /// <returns>One row of numbers per question.</returns>
    public static double[][] AskMany(string script, IReadOnlyList<(string Question, double[][] Vectors)> questions)
    {
        string input = string.Concat(questions.Select(one =>
            string.Join('\t', one.Vectors.Select(Join).Prepend(one.Question)) + "\n"));
        string[] lines = Run(script, input).Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(questions.Count, lines.Length);
        return
        [
            .. lines.Select(line => line
                .Split(' ', StringSplitOptions.RemoveEmptyEntries)
                .Select(Parse)
                .ToArray()),
        ];
    }

    private static string Run(string script, string input)
    {
        ProcessStartInfo start = new("Rscript", ["--vanilla", RepositoryRoot.PathOf($"tests/tools/{script}")])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        using Process process = Start(start);
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        Task<string> error = process.StandardError.ReadToEndAsync();
        process.StandardInput.Write(input);
        process.StandardInput.Close();
        if (!process.WaitForExit(Limit))
        {
            process.Kill(entireProcessTree: true);
            throw new TimeoutException($"{script} did not answer within {Limit.TotalSeconds} s.");
        }

        process.WaitForExit();
        return process.ExitCode == 0
            ? output.Result
            : throw new InvalidOperationException($"{script} failed: {error.Result}");
    }

    private static Process Start(ProcessStartInfo start)
    {
        const string Missing = "Rscript is missing: install the Debian package r-base-core, as `bash tests/run` does.";
        try
        {
            return Process.Start(start) ?? throw new InvalidOperationException(Missing);
        }
        catch (Win32Exception error)
        {
            throw new InvalidOperationException(Missing, error);
        }
    }

    private static string Join(double[] vector) =>
        string.Join(' ', vector.Select(value => value.ToString("R", CultureInfo.InvariantCulture)));

    private static double Parse(string text) => text switch
    {
        "Inf" => double.PositiveInfinity,
        "-Inf" => double.NegativeInfinity,
        "NA" or "NaN" => double.NaN,
        _ => double.Parse(text, CultureInfo.InvariantCulture),
    };
}

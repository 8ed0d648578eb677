using System.Diagnostics;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace ClearView.Optics.Tests.Reference;

/// <summary>Asks a program outside this project, tests/tools/reference_*.py, and reads its answer.</summary>
/// <remarks>
/// The programs run under the system's own Python, for which <c>bash tests/run</c> installs what they need. Where one
/// cannot run, the test fails: a comparison that did not take place is not a comparison that passed.
/// </remarks>
internal static class ReferenceProgram
{
    private const string Python = "/usr/bin/python3";

    private static readonly TimeSpan Limit = TimeSpan.FromMinutes(2);

    private static readonly JsonSerializerOptions Options = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.SnakeCaseLower,
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    };

    /// <summary>Asks one kind of question, several cases at once.</summary>
    /// <param name="program">File name below tests/tools.</param>
    /// <param name="question">Kind of question, as the program names it.</param>
    /// <param name="cases">One object per case, as the program describes it.</param>
    /// <returns>One row of numbers per case.</returns>
    public static double[][] Ask(string program, string question, IEnumerable<object> cases)
    {
        object[] asked = [.. cases];
        string input = JsonSerializer.Serialize(new Dictionary<string, object[]> { [question] = asked }, Options);
        ProcessStartInfo start = new(Python, [RepositoryRoot.PathOf($"tests/tools/{program}")])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        using Process process = Process.Start(start) ?? throw new InvalidOperationException($"{Python} did not start.");
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        Task<string> error = process.StandardError.ReadToEndAsync();
        process.StandardInput.Write(input);
        process.StandardInput.Close();
        if (!process.WaitForExit(Limit))
        {
            process.Kill(entireProcessTree: true);
            throw new TimeoutException($"{program} did not answer within {Limit.TotalSeconds} s.");
        }

        process.WaitForExit();
        if (process.ExitCode != 0)
        {
            throw new InvalidOperationException($"{program} failed; does the machine have what `bash tests/run` installs? {error.Result}");
        }

        double[][] answers = JsonSerializer.Deserialize<Dictionary<string, double[][]>>(output.Result, Options)![question];
        Assert.Equal(asked.Length, answers.Length);
        return answers;
    }
}

using ClearView.Console.Judging;
using ClearView.Console.Rendering;
using ClearView.V1;

namespace ClearView.Console.Commands;

/// <summary>Tells what was refused, and finds the exit code.</summary>
internal static class Outcome
{
    /// <summary>Tells every refused specimen, and gives the exit code: bad input before a failed limit before all well.</summary>
    /// <param name="screen">Where to tell.</param>
    /// <param name="results">The specimens.</param>
    /// <param name="faultyFiles">Files that could not be read, which were told already.</param>
    public static int Report(Screen screen, IReadOnlyCollection<SpecimenResult> results, int faultyFiles)
    {
        var refused = results.Where(result => result.Violations.Length > 0).ToList();
        foreach (var result in refused)
        {
            screen.Error($"{result.FilePath}, line {NumberText.Plain(result.Line ?? 0)}: specimen {result.Specimen} was refused");
            foreach (var violation in result.Violations)
            {
                screen.Hint($"{violation.Field}: {violation.Description}");
            }
        }
        if (refused.Count > 0 || faultyFiles > 0)
        {
            return ExitCode.BadInput;
        }
        return results.All(result => result.Verdict is null or { Judgement: Judgement.Pass }
            && (result.AlreadyStored is null || result.Reading?.Verdict is null or { Outcome: VerdictOutcome.Conformity }))
                ? ExitCode.Ok
                : ExitCode.LimitFailed;
    }
}

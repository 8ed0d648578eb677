using ClearView.Console.Rendering;

namespace ClearView.Console.Commands.Studies;

/// <summary>How many specimens to take, and plans for acceptance.</summary>
internal sealed class SamplingCommand : DocumentedCommand
{
    /// <summary>Creates the command.</summary>
    public SamplingCommand(Screen screen)
        : base("sampling", "How many specimens to take, and plans for acceptance by variables.",
        [
            "clearview sampling mean --standard-deviation 0.15 --half-width 0.1",
            "clearview sampling equivalence --standard-deviation 0.15 --margin 0.2",
            "clearview sampling plan --acceptable 1 --rejectable 6 --chart plan.png",
        ])
    {
        Add(SamplingQuestionCommand.Mean(screen));
        Add(SamplingQuestionCommand.Difference(screen));
        Add(SamplingQuestionCommand.Equivalence(screen));
        Add(new SamplingPlanCommand(screen));
    }
}

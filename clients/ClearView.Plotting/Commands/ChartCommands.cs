using System.CommandLine;

namespace ClearView.Plotting.Commands;

/// <summary>The commands that draw charts.</summary>
public static class ChartCommands
{
    private const string Description = "Draw charts as PNG and SVG, from stored readings or scan files; or a decision in a JSON file, as PDF too.";

    /// <summary>The command `chart`, with built-in methods by name for files.</summary>
    /// <param name="clock">The clock that bounds times of measurement in files.</param>
    public static Command Create(TimeProvider clock) => Create(clock, () => new NamedMethodChoice());

    /// <summary>The command `chart` with one command for each kind of chart.</summary>
    /// <param name="clock">The clock that bounds times of measurement in files.</param>
    /// <param name="createMethodChoice">Makes the options that state the method of files, once for each command.</param>
    public static Command Create(TimeProvider clock, Func<IMethodChoice> createMethodChoice)
    {
        ArgumentNullException.ThrowIfNull(clock);
        ArgumentNullException.ThrowIfNull(createMethodChoice);
        return new Command("chart", Description)
        {
            new SpectralCommand(clock, createMethodChoice()),
            new HazeSpectrumCommand(clock, createMethodChoice()),
            new BudgetCommand(clock, createMethodChoice()),
            new LightBarrierCommand(clock, createMethodChoice()),
            new WallCommand(clock, createMethodChoice()),
            new ColourCommand(clock, createMethodChoice()),
            new ChromaticityCommand(clock, createMethodChoice()),
            new RunCommand(clock, createMethodChoice()),
            new DecisionCommand(),
        };
    }
}

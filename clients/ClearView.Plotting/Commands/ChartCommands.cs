using System.CommandLine;

namespace ClearView.Plotting.Commands;

/// <summary>The commands that draw charts.</summary>
public static class ChartCommands
{
    private const string Description = "Draw charts as PNG and SVG, from stored readings or from scan files.";

    /// <summary>The command `chart` with one command for each kind of chart.</summary>
    /// <param name="clock">The clock that bounds times of measurement in files.</param>
    public static Command Create(TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(clock);
        return new Command("chart", Description)
        {
            new SpectralCommand(clock),
            new ColourCommand(clock),
            new ChromaticityCommand(clock),
            new RunCommand(clock),
        };
    }
}

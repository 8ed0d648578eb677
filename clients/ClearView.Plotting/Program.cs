using System.CommandLine;

using ClearView.Plotting.Commands;

namespace ClearView.Plotting;

internal static class Program
{
    private const string Description = """
        Charts of transmission and haze measurements.

        Exit codes: 0 done, and every limit was kept; 1 done, but a limit failed; 2 the command line, a file or a
        reading is not right; 3 the server could not be reached, or failed; 130 stopped.
        """;

    private static Task<int> Main(string[] arguments)
    {
        var root = new RootCommand(Description);
        Command chart = ChartCommands.Create(TimeProvider.System);
        root.Add(chart);
        return root.Parse(arguments).InvokeAsync();
    }
}

using System.CommandLine;

using ClearView.Plotting.Commands;

namespace ClearView.Plotting;

internal static class Program
{
    private static Task<int> Main(string[] arguments)
    {
        var root = new RootCommand("Charts of transmission and haze measurements.");
        Command chart = ChartCommands.Create(TimeProvider.System);
        root.Add(chart);
        return root.Parse(arguments).InvokeAsync();
    }
}

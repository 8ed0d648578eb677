using ClearView.Console.Commands;
using ClearView.Console.Rendering;

namespace ClearView.Console;

internal static class Program
{
    private static Task<int> Main(string[] arguments) => ClearViewRoot.RunAsync(arguments, Screen.OfProcess(), TimeProvider.System);
}

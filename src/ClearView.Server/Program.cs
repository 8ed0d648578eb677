namespace ClearView.Server;

internal static class Program
{
    private static Task<int> Main(string[] args) => ServerProgram.RunAsync(args, System.Console.Out, System.Console.Error);
}

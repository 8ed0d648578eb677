using BenchmarkDotNet.Running;

using ClearView.Benchmarks.Measuring;

namespace ClearView.Benchmarks;

internal static class Program
{
    private static async Task<int> Main(string[] args)
    {
        if (await LoadModes.RunAsync(args) is { } code)
        {
            return code;
        }

        BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
        return 0;
    }
}

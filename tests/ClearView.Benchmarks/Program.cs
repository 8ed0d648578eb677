using BenchmarkDotNet.Running;

using ClearView.Benchmarks.Posting;

namespace ClearView.Benchmarks;

internal static class Program
{
    private static async Task Main(string[] args)
    {
        if (args is ["post-stream"])
        {
            await PostStreamLoad.RunAsync(rounds: 15);
            return;
        }

        BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
    }
}

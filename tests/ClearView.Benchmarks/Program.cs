namespace ClearView.Benchmarks;

internal static class Program
{
    private static void Main()
    {
    }
}

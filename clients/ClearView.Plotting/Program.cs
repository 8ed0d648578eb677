namespace ClearView.Plotting;

internal static class Program
{
    private static void Main()
    {
    }
}

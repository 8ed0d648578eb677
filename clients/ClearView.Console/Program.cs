namespace ClearView.Console;

internal static class Program
{
    private static void Main()
    {
    }
}

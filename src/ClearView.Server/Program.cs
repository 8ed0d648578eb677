namespace ClearView.Server;

internal static class Program
{
    private static void Main()
    {
    }
}

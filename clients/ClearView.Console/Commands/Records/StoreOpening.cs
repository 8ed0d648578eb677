using ClearView.Console.Rendering;
using ClearView.Records.Exchange;
using ClearView.Records.Model;
using ClearView.Records.Postgres;
using ClearView.Records.Retention;

namespace ClearView.Console.Commands.Records;

/// <summary>Works on stores without a server.</summary>
internal static class StoreOpening
{
    /// <summary>Whether a store is a file that does not exist.</summary>
    public static bool IsMissing(string store) => !PostgresConnectionString.IsOne(store) && !File.Exists(store);

    /// <summary>Makes sure that a store that is to be read is there.</summary>
    /// <exception cref="UsageException">It is a file that does not exist.</exception>
    public static void RequireExisting(string store)
    {
        if (IsMissing(store))
        {
            throw new UsageException($"{store} does not exist.");
        }
    }

    /// <summary>Runs what needs stores, and turns what goes wrong with them into words and an exit code.</summary>
    public static async Task<int> RunAsync(Screen screen, Func<Task<int>> body)
    {
        try
        {
            return await body();
        }
        catch (Exception error) when (error is StoreCopyException or RetentionException or StoreFormatException or FormatException or IOException or UnauthorizedAccessException)
        {
            throw new UsageException(error.Message);
        }
        catch (StoreUnavailableException error)
        {
            screen.Error(error.Message);
            return ExitCode.ServerFault;
        }
    }
}

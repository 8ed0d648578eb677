using System.Runtime;
using System.Runtime.InteropServices;

using Microsoft.Data.Sqlite;

namespace ClearView.Benchmarks.Measuring;

/// <summary>What the figures were measured on.</summary>
internal static class Machine
{
    /// <summary>Prints cores, runtime, and the engine of the store.</summary>
    /// <param name="engine">Name and version of the engine, with its settings; empty where there is none.</param>
    public static void Print(string engine)
    {
        var collection = GCSettings.IsServerGC ? "server" : "workstation";
        string[] facts =
        [
            FormattableString.Invariant($"{Environment.ProcessorCount} cores, {RuntimeInformation.OSArchitecture}"),
            $"{RuntimeInformation.FrameworkDescription}, {collection} garbage collection",
            engine,
        ];
        Console.WriteLine(string.Join("; ", facts.Where(fact => fact.Length > 0)));
    }

    /// <summary>Name and version of the embedded engine.</summary>
    public static string Sqlite()
    {
        using var connection = new SqliteConnection("Data Source=:memory:");
        connection.Open();
        return $"SQLite {connection.ServerVersion}, synchronous = FULL";
    }

    /// <summary>Refuses a load that the disk may not hold.</summary>
    /// <param name="folder">A folder on the disk.</param>
    /// <param name="neededBytes">What the load writes at most.</param>
    /// <exception cref="LoadException">There is less room.</exception>
    public static void CheckRoom(string folder, long neededBytes)
    {
        var free = new DriveInfo(folder).AvailableFreeSpace;
        if (free < neededBytes)
        {
            throw new LoadException(
                $"{folder} has {Figures.Text(free / 1e9, 1)} GB left, and this load may write {Figures.Text(neededBytes / 1e9, 1)} GB. "
                + "Give a smaller number of readings, or set TMPDIR to a folder on a larger disk.");
        }
    }
}

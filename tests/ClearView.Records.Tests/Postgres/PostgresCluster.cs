using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;

using Npgsql;

// The load program uses the cluster without a test runner.
#if !NO_TEST_RUNNER
[assembly: AssemblyFixture(typeof(ClearView.Records.Tests.Postgres.PostgresCluster))]
#endif

namespace ClearView.Records.Tests.Postgres;

/// <summary>A PostgreSQL of the tests' own: in a temporary folder, on a free port of this machine, gone afterwards.</summary>
/// <remarks>It refuses to run as root, so that root hands it to the system user "postgres" of Debian's package.</remarks>
public sealed class PostgresCluster : IDisposable
{
    private const string VersionsFolder = "/usr/lib/postgresql";

    private readonly string _folder = Directory.CreateTempSubdirectory("clearview-postgres-").FullName;
    private readonly string _programs = ProgramsFolder();
    private readonly int _port = FreePort();

    /// <summary>Makes the cluster and starts it.</summary>
    public PostgresCluster()
    {
        HandOver();
        RunAsUser(Path.Combine(_programs, "initdb"), "-D", Data, "-U", "clearview", "-A", "trust", "-E", "UTF8", "--no-locale");
        Start();
    }

    private PostgresCluster(string baseBackup, string recoverySettings)
    {
        Run("cp", "-a", baseBackup, Data);
        File.AppendAllText(Path.Combine(Data, "postgresql.auto.conf"), recoverySettings);
        File.WriteAllText(Path.Combine(Data, "recovery.signal"), "");
        HandOver();
        Start();
    }

    /// <summary>The folder of the cluster, which it may write into.</summary>
    public string Folder => _folder;

    private string Data => Path.Combine(_folder, "data");

    /// <summary>Starts a copy of a base backup, which recovers from an archive of the log.</summary>
    /// <param name="baseBackup">The folder of the base backup.</param>
    /// <param name="recoverySettings">Settings of the recovery, in lines.</param>
    public static PostgresCluster Recover(string baseBackup, string recoverySettings) => new(baseBackup, recoverySettings);

    /// <summary>Makes an empty database.</summary>
    /// <returns>Its connection string.</returns>
    public string CreateDatabase()
    {
        var name = "store_" + Guid.NewGuid().ToString("N");
        using var connection = new NpgsqlConnection(ConnectionString("postgres") + ";Pooling=false");
        connection.Open();
#pragma warning disable CA2100 // The name is made here.
        using var command = new NpgsqlCommand("CREATE DATABASE " + name, connection);
#pragma warning restore CA2100
        command.ExecuteNonQuery();
        return ConnectionString(name);
    }

    /// <summary>Runs a client program of PostgreSQL against the cluster.</summary>
    /// <param name="program">Its name, for example "pg_dump".</param>
    /// <param name="arguments">Its arguments, but for host, port and user.</param>
    /// <exception cref="InvalidOperationException">It failed.</exception>
    public void RunClient(string program, params string[] arguments) => Run(
        Path.Combine(_programs, program),
        ["--host=127.0.0.1", string.Create(CultureInfo.InvariantCulture, $"--port={_port}"), "--username=clearview", .. arguments]);

    /// <summary>The connection string of a database.</summary>
    /// <param name="database">Its name.</param>
    public string ConnectionString(string database) =>
        string.Create(CultureInfo.InvariantCulture, $"Host=127.0.0.1;Port={_port};Username=clearview;Database={database}");

    /// <summary>Starts the cluster and waits until it takes connections.</summary>
    public void Start() => RunAsUser(
        Path.Combine(_programs, "pg_ctl"), "start", "-w", "-t", "60", "-D", Data, "-l", Path.Combine(_folder, "log"), "-o",
        string.Create(CultureInfo.InvariantCulture, $"-p {_port} -c listen_addresses=127.0.0.1 -c unix_socket_directories='' -c max_connections=200"));

    /// <summary>Stops the cluster in order, whoever is connected.</summary>
    public void Stop() => RunAsUser(Path.Combine(_programs, "pg_ctl"), "stop", "-w", "-m", "fast", "-D", Data);

    /// <summary>Ends every process of the cluster at once, as a crash does.</summary>
    public void Kill()
    {
        var postmaster = int.Parse(File.ReadLines(Path.Combine(Data, "postmaster.pid")).First(), CultureInfo.InvariantCulture);
        using var process = Process.GetProcessById(postmaster);
        var children = File.ReadAllText($"/proc/{postmaster}/task/{postmaster}/children")
            .Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(id => int.Parse(id, CultureInfo.InvariantCulture)).ToList();
        process.Kill();
        foreach (var child in children)
        {
            try
            {
                using var backend = Process.GetProcessById(child);
                backend.Kill();
                backend.WaitForExit();
            }
            catch (ArgumentException)
            {
                // It went with the postmaster.
            }
        }

        process.WaitForExit();
    }

    /// <summary>Stops the cluster and removes its folder.</summary>
    public void Dispose()
    {
        RunAsUser(Path.Combine(_programs, "pg_ctl"), "stop", "-w", "-m", "immediate", "-D", Data);
        Directory.Delete(_folder, recursive: true);
    }

    private static string ProgramsFolder()
    {
        var newest = Directory.Exists(VersionsFolder)
            ? Directory.GetDirectories(VersionsFolder)
                .Where(folder => int.TryParse(Path.GetFileName(folder), out var major) && major >= 15 && File.Exists(Path.Combine(folder, "bin", "initdb")))
                .MaxBy(folder => int.Parse(Path.GetFileName(folder), CultureInfo.InvariantCulture))
            : null;
        return newest is null
            ? throw new InvalidOperationException(
                $"PostgreSQL 15 or newer is not installed ({VersionsFolder}/*/bin/initdb is missing). Install Debian's package \"postgresql\"; tests/run does.")
            : Path.Combine(newest, "bin");
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    private static void RunAsUser(params string[] command)
    {
        if (Environment.IsPrivilegedProcess)
        {
            Run("runuser", ["-u", "postgres", "--", .. command]);
        }
        else
        {
            Run(command[0], command[1..]);
        }
    }

    private static void Run(string program, params string[] arguments)
    {
        // Output goes to a file: a pipe would be held open by the server that outlives the command.
        var output = Path.GetTempFileName();
        try
        {
            using var process = Process.Start(new ProcessStartInfo(
                "sh", ["-c", "cd / && out=$1 && shift && exec \"$@\" >\"$out\" 2>&1 </dev/null", "sh", output, program, .. arguments]))!;
            process.WaitForExit();
            if (process.ExitCode != 0)
            {
                throw new InvalidOperationException($"{program} {string.Join(' ', arguments)} failed: {File.ReadAllText(output)}");
            }
        }
        finally
        {
            File.Delete(output);
        }
    }

    private void HandOver()
    {
        if (Environment.IsPrivilegedProcess)
        {
            Run("chown", "-R", "postgres", _folder);
        }
    }
}

using System.Diagnostics;
using System.Globalization;

using Grpc.Net.Client;

namespace ClearView.EndToEnd.Tests.Servers;

/// <summary>The real server in a process of its own, on a free loopback port.</summary>
internal sealed class ServerProcess : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private readonly Process _process;
    private readonly Task<string> _error;

    private ServerProcess(Process process, Task<string> error, Uri address)
    {
        _process = process;
        _error = error;
        Address = address;
    }

    public Uri Address { get; }

    /// <summary>The process' number.</summary>
    public int Id => _process.Id;

    public static Task<ServerProcess> StartAsync(string store, CancellationToken cancellationToken, int port = 0) =>
        StartAsync(new ServerSetUp(store) { Listen = FormattableString.Invariant($"127.0.0.1:{port}") }, cancellationToken);

    public static async Task<ServerProcess> StartAsync(ServerSetUp setUp, CancellationToken cancellationToken)
    {
        var dotnet = Environment.GetEnvironmentVariable("DOTNET_HOST_PATH") ?? "dotnet";
        string[] command =
        [
            .. setUp.Wrapper, dotnet, Path.Combine(AppContext.BaseDirectory, "ClearView.Server.dll"),
            "--listen", setUp.Listen, "--store", setUp.Store, .. setUp.Flags,
        ];
        var start = new ProcessStartInfo(command[0], command[1..])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = setUp.WorkingFolder,
        };
        foreach (var (name, value) in setUp.Environment)
        {
            start.Environment[name] = value;
        }

        var process = Process.Start(start)!;
        var error = process.StandardError.ReadToEndAsync(CancellationToken.None);
        try
        {
            const string announcement = "Listening on ";
            var line = await process.StandardOutput.ReadLineAsync(cancellationToken).AsTask().WaitAsync(Patience, cancellationToken);
            return line?.StartsWith(announcement, StringComparison.Ordinal) == true
                ? new ServerProcess(process, error, new Uri(line[announcement.Length..]))
                : throw new InvalidOperationException($"The server did not start: {line} {await error}");
        }
        catch
        {
            process.Kill();
            process.Dispose();
            throw;
        }
    }

    public GrpcChannel Connect() => GrpcChannel.ForAddress(Address);

    /// <summary>Ends the process at once, as a power cut would (SIGKILL).</summary>
    public async Task KillAsync()
    {
        _process.Kill();
        await _process.WaitForExitAsync(CancellationToken.None).WaitAsync(Patience);
    }

    /// <summary>Asks the process to stop (SIGTERM).</summary>
    /// <returns>Its exit code and its log.</returns>
    public async Task<(int ExitCode, string Log)> TerminateAsync()
    {
        // The shell's own kill is there even where no kill program is.
        var command = string.Create(CultureInfo.InvariantCulture, $"kill -TERM {_process.Id}");
        using (var kill = Process.Start("sh", ["-c", command]))
        {
            await kill.WaitForExitAsync(CancellationToken.None);
        }

        await _process.WaitForExitAsync(CancellationToken.None).WaitAsync(Patience);
        return (_process.ExitCode, await _error);
    }

    public void Dispose()
    {
        if (!_process.HasExited)
        {
            _process.Kill();
            _process.WaitForExit();
        }

        _process.Dispose();
    }
}

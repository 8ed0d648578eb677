using System.Runtime.InteropServices;

using ClearView.Records.Model;
using ClearView.Server.Configuration;

using Microsoft.AspNetCore.Connections;

namespace ClearView.Server;

/// <summary>Runs a server until the process is asked to stop.</summary>
public static class ServerProgram
{
    /// <summary>Exit code after an orderly stop.</summary>
    public const int Success = 0;

    /// <summary>Exit code when the server could not start.</summary>
    public const int CannotStart = 2;

    /// <summary>Exit code when the address is in use, so that a later start may succeed.</summary>
    public const int Unavailable = 3;

    /// <summary>Starts a server and waits for SIGTERM, SIGINT or the token.</summary>
    /// <param name="args">Flags of the server.</param>
    /// <param name="output">Takes one line with the address once the server listens.</param>
    /// <param name="error">Takes the reason when the server cannot start.</param>
    /// <param name="cancellationToken">Asks the server to stop.</param>
    /// <returns><see cref="Success"/>, <see cref="CannotStart"/> or <see cref="Unavailable"/>.</returns>
    public static async Task<int> RunAsync(
        string[] args, TextWriter output, TextWriter error, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(args);
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(error);
        var stop = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        using var onToken = cancellationToken.Register(() => stop.TrySetResult());
        using var onTerminate = PosixSignalRegistration.Create(PosixSignal.SIGTERM, Stop);
        using var onInterrupt = PosixSignalRegistration.Create(PosixSignal.SIGINT, Stop);
        void Stop(PosixSignalContext signal)
        {
            // Supervisors may send SIGTERM more than once; a second Ctrl+C is a person who will not wait.
            signal.Cancel = stop.TrySetResult() || signal.Signal == PosixSignal.SIGTERM;
        }

        try
        {
            var server = ClearViewServer.Build(args);
            await using (server.ConfigureAwait(false))
            {
                await server.StartAsync(cancellationToken).ConfigureAwait(false);
                await output.WriteLineAsync($"Listening on {server.Address}").ConfigureAwait(false);
                await output.FlushAsync(CancellationToken.None).ConfigureAwait(false);
                await stop.Task.ConfigureAwait(false);
                await server.StopAsync(CancellationToken.None).ConfigureAwait(false);
            }

            return Success;
        }
        catch (IOException failure) when (failure.InnerException is AddressInUseException)
        {
            await error.WriteLineAsync(
                "ClearView cannot start: " + failure.Message.TrimEnd('.') + ". Stop the program that holds it, or name another with --listen.")
                .ConfigureAwait(false);
            return Unavailable;
        }
        catch (Exception failure) when (failure is ServerOptionsException or StoreFormatException or StoreUnavailableException or IOException)
        {
            await error.WriteLineAsync("ClearView cannot start: " + failure.Message).ConfigureAwait(false);
            return CannotStart;
        }
    }
}

using ClearView.Client;
using ClearView.Client.Files;
using ClearView.Client.Outbox;
using ClearView.Console.Rendering;

using Grpc.Core;

namespace ClearView.Console.Commands;

/// <summary>Runs what a command does, and turns what goes wrong into words and an exit code.</summary>
internal static class CommandRunner
{
    /// <summary>Runs it.</summary>
    public static async Task<int> RunAsync(Screen screen, Func<Task<int>> body)
    {
        try
        {
            return await body();
        }
        catch (UsageException e)
        {
            screen.Error(e.Message);
            return ExitCode.BadInput;
        }
        catch (ClearViewCredentialsException e)
        {
            screen.Error(e.Message);
            return ExitCode.BadInput;
        }
        catch (OutboxException e)
        {
            screen.Error(e.Message);
            return ExitCode.BadInput;
        }
        catch (ScanFileException e)
        {
            screen.Error(e.Message);
            return ExitCode.BadInput;
        }
        catch (ClearViewCallException e)
        {
            screen.Error(e.Message);
            if (e.Status == StatusCode.Unavailable)
            {
                screen.Hint("start one with: clearview serve");
            }
            if (e.Status == StatusCode.Unauthenticated)
            {
                screen.Hint($"say who you are with: --key-file FILE, or a key in {ClearViewCredentials.KeyVariable}");
            }
            return e.Status is StatusCode.InvalidArgument or StatusCode.AlreadyExists or StatusCode.NotFound or StatusCode.FailedPrecondition
                or StatusCode.Unauthenticated or StatusCode.PermissionDenied
                ? ExitCode.BadInput
                : ExitCode.ServerFault;
        }
        catch (OperationCanceledException)
        {
            screen.Error("stopped");
            return ExitCode.Stopped;
        }
    }
}

using System.Diagnostics;
using System.Net;
using System.Net.Sockets;

namespace ClearView.EndToEnd.Tests.Servers;

/// <summary>A server whose address another program holds.</summary>
public sealed class OccupiedAddressTests : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-occupied-");

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public void Dispose() => _folder.Delete(recursive: true);

    [Theory]
    [InlineData("ClearView.Server.dll")]
    [InlineData("clearview.dll", "serve")]
    [InlineData("clearview.dll", "serve", "--log-level", "error")]
    [InlineData("clearview.dll", "serve", "--log-format", "json")]
    public async Task Start_AddressInUse_SaysSoInOneLineAndEndsWithExitCode3(string program, params string[] arguments)
    {
        using var other = new TcpListener(IPAddress.Loopback, 0);
        other.Start();
        var address = other.LocalEndpoint.ToString()!;

        var (exitCode, output, error) = await RunAsync(
            [Path.Combine(AppContext.BaseDirectory, program), .. arguments, "--listen", address, "--store", Path.Combine(_folder.FullName, "readings.db")]);

        Assert.Equal(3, exitCode);
        Assert.Empty(output);
        var line = Assert.Single(error.Split('\n', StringSplitOptions.RemoveEmptyEntries));
        Assert.StartsWith("ClearView cannot start: ", line, StringComparison.Ordinal);
        Assert.Contains(address, line, StringComparison.Ordinal);
        Assert.Contains("in use", line, StringComparison.Ordinal);
        Assert.Contains("--listen", line, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", error, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", error, StringComparison.Ordinal);
    }

    private async Task<(int ExitCode, string Output, string Error)> RunAsync(string[] command)
    {
        var start = new ProcessStartInfo(Environment.GetEnvironmentVariable("DOTNET_HOST_PATH") ?? "dotnet", command)
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = _folder.FullName,
        };
        using var process = Process.Start(start)!;
        try
        {
            var output = process.StandardOutput.ReadToEndAsync(Token);
            var error = process.StandardError.ReadToEndAsync(Token);
            await process.WaitForExitAsync(Token).WaitAsync(Patience, Token);
            return (process.ExitCode, await output, await error);
        }
        finally
        {
            if (!process.HasExited)
            {
                process.Kill();
            }
        }
    }
}

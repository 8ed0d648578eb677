namespace ClearView.Server.Hosting;

/// <summary>Leaves the signals of the process to whoever hosts the server.</summary>
internal sealed class NoSignalsLifetime : IHostLifetime
{
    public Task WaitForStartAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;
}

using ClearView.Client;

namespace ClearView.EndToEnd.Tests.Lines;

/// <summary>Several lines that post side by side.</summary>
internal sealed class Posting : IAsyncDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(120);

    private readonly CancellationTokenSource _stop = new();
    private readonly List<ClearViewClient> _clients = [];
    private readonly Task _running;

    public Posting(ServerAddresses servers, int lines, CancellationToken cancellationToken, ClearViewClientOptions? options = null)
    {
        Lines = [.. Enumerable.Range(1, lines).Select(number => new Line(FormattableString.Invariant($"line {number}"), seed: number))];
        _running = Task.WhenAll(Lines.Select(line =>
        {
            var client = ClearViewClient.Connect(servers, options);
            _clients.Add(client);
            return Task.Run(() => line.PostAsync(client, _stop.Token, cancellationToken), cancellationToken);
        }));
    }

    public IReadOnlyList<Line> Lines { get; }

    public int AcknowledgedCount => Lines.Sum(line => line.AcknowledgedCount);

    /// <summary>Waits until every line has had this many more readings acknowledged.</summary>
    public async Task WaitForAsync(int more)
    {
        var goals = Lines.Select(line => line.AcknowledgedCount + more).ToList();
        using var patience = new CancellationTokenSource(Patience);
        while (Lines.Zip(goals).Any(pair => pair.First.AcknowledgedCount < pair.Second))
        {
            if (_running.IsCompleted)
            {
                await _running;
            }

            await Task.Delay(10, patience.Token);
        }
    }

    /// <summary>Lets every line finish its reading.</summary>
    public async Task StopAsync()
    {
        await _stop.CancelAsync();
        await _running.WaitAsync(Patience);
    }

    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        await _running.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        foreach (var client in _clients)
        {
            await client.DisposeAsync();
        }

        _stop.Dispose();
    }
}

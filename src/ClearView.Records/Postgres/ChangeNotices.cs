using Npgsql;

namespace ClearView.Records.Postgres;

/// <summary>Tells the other servers of a database that something was stored, and hears it from them.</summary>
/// <remarks>
/// A notification in the transaction of the readings would queue up their commits behind one lock of the whole database, until each
/// has reached the disk. It goes out by itself instead, after the commit, through a connection that waits for no disk, and one
/// stands for all of a short while. One that is lost is made up for: whoever waits looks into the store now and then besides.
/// </remarks>
/// <param name="source">Gives connections.</param>
/// <param name="heard">Called when another server has stored something, or may have.</param>
internal sealed class ChangeNotices(NpgsqlDataSource source, Action heard) : IAsyncDisposable
{
    private const string Channel = "clearview_recorded";

    private static readonly TimeSpan PauseBetween = TimeSpan.FromMilliseconds(20);
    private static readonly TimeSpan PauseAfterFault = TimeSpan.FromSeconds(1);

    private readonly string _own = Guid.NewGuid().ToString("N");
    private readonly CancellationTokenSource _ending = new();
    private readonly Lock _lock = new();
    private Task _sending = Task.CompletedTask;
    private Task _listening = Task.CompletedTask;
    private bool _isSending;
    private bool _isListening;
    private bool _isDue;

    /// <summary>Tells the others, soon. Returns at once.</summary>
    public void Send()
    {
        lock (_lock)
        {
            _isDue = true;
            if (!_isSending && !_ending.IsCancellationRequested)
            {
                _isSending = true;
                _sending = Task.Run(SendAsync);
            }
        }
    }

    /// <summary>Begins to listen, and goes on until disposed.</summary>
    public void Listen()
    {
        lock (_lock)
        {
            if (!_isListening && !_ending.IsCancellationRequested)
            {
                _isListening = true;
                _listening = Task.Run(ListenAsync);
            }
        }
    }

    /// <summary>Ends both, and waits for it.</summary>
    public async ValueTask DisposeAsync()
    {
        await _ending.CancelAsync().ConfigureAwait(false);
        Task sending, listening;
        lock (_lock)
        {
            (sending, listening) = (_sending, _listening);
        }

        await Task.WhenAll(sending, listening).ConfigureAwait(false);
        _ending.Dispose();
    }

    // The first goes out at once; what comes during the pause goes out together after it.
    private async Task SendAsync()
    {
        while (TakeDue())
        {
            var pause = PauseBetween;
            try
            {
                var connection = await source.OpenConnectionAsync(_ending.Token).ConfigureAwait(false);
                await using var ofNotice = connection.ConfigureAwait(false);

                // Nothing is written that would have to last: the lock of the queue is held without a flush.
                var notify = new NpgsqlCommand("SELECT set_config('synchronous_commit', 'off', true), pg_notify(@channel, @own)", connection);
                await using var ofCall = notify.ConfigureAwait(false);
                notify.Parameters.AddWithValue("channel", Channel);
                notify.Parameters.AddWithValue("own", _own);
                await notify.ExecuteNonQueryAsync(_ending.Token).ConfigureAwait(false);
            }
            catch (Exception error) when (IsOfEnding(error) || PostgresErrors.IsOfDatabase(error))
            {
                SetDue();
                pause = PauseAfterFault;
            }

            await PauseAsync(pause).ConfigureAwait(false);
        }
    }

    private async Task ListenAsync()
    {
        while (!_ending.IsCancellationRequested)
        {
            try
            {
                var connection = await source.OpenConnectionAsync(_ending.Token).ConfigureAwait(false);
                await using var ofListening = connection.ConfigureAwait(false);
                connection.Notification += (_, notice) =>
                {
                    if (notice.Payload != _own)
                    {
                        heard();
                    }
                };
                var listen = new NpgsqlCommand("LISTEN " + Channel, connection);
                await using (listen.ConfigureAwait(false))
                {
                    await listen.ExecuteNonQueryAsync(_ending.Token).ConfigureAwait(false);
                }

                // What was told before, nobody heard.
                heard();
                while (true)
                {
                    await connection.WaitAsync(_ending.Token).ConfigureAwait(false);
                }
            }
            catch (Exception error) when (error is InvalidOperationException || IsOfEnding(error) || PostgresErrors.IsOfDatabase(error))
            {
                // A connection that broke between two waits is told of as an invalid operation.
                await PauseAsync(PauseAfterFault).ConfigureAwait(false);
            }
        }
    }

    private bool TakeDue()
    {
        lock (_lock)
        {
            _isSending = _isDue && !_ending.IsCancellationRequested;
            _isDue = false;
            return _isSending;
        }
    }

    private void SetDue()
    {
        lock (_lock)
        {
            _isDue = true;
        }
    }

    private bool IsOfEnding(Exception error) => _ending.IsCancellationRequested && error is OperationCanceledException or ObjectDisposedException;

    private async Task PauseAsync(TimeSpan pause) =>
        await Task.Delay(pause, _ending.Token).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
}

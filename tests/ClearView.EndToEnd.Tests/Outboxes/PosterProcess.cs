using System.Collections.Concurrent;
using System.Diagnostics;
using System.Text.Json.Nodes;

namespace ClearView.EndToEnd.Tests.Outboxes;

/// <summary>The real "clearview post" in a process of its own, and the lines that it writes.</summary>
internal sealed class PosterProcess : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(120);

    private readonly Process _process;
    private readonly Task _reading;
    private readonly ConcurrentQueue<JsonObject> _events = new();

    private PosterProcess(Process process)
    {
        _process = process;
        _reading = ReadAsync();
    }

    /// <summary>What it has told so far.</summary>
    public IReadOnlyCollection<JsonObject> Events => _events;

    /// <summary>Takes what stands on its standard input.</summary>
    public StreamWriter Input => _process.StandardInput;

    /// <summary>Starts it.</summary>
    /// <param name="folder">Where it works.</param>
    /// <param name="arguments">Its arguments behind "post --json".</param>
    public static PosterProcess Start(string folder, params string[] arguments)
    {
        var start = new ProcessStartInfo(
            Environment.GetEnvironmentVariable("DOTNET_HOST_PATH") ?? "dotnet",
            [Path.Combine(AppContext.BaseDirectory, "clearview.dll"), "post", "--json", .. arguments])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            WorkingDirectory = folder,
        };
        return new PosterProcess(Process.Start(start)!);
    }

    /// <summary>How many readings it has told to be stored, now or before.</summary>
    public int StoredCount() => _events.Count(one => (string?)one["event"] is "stored" or "there");

    /// <summary>Waits until it has told enough.</summary>
    public async Task WaitForAsync(Func<PosterProcess, bool> isEnough, CancellationToken cancellationToken)
    {
        var since = Stopwatch.StartNew();
        while (!isEnough(this))
        {
            Assert.True(since.Elapsed < Patience && !_process.HasExited, $"the poster told only: {string.Join(' ', _events.Select(one => one.ToJsonString()))}");
            await Task.Delay(5, cancellationToken);
        }
    }

    /// <summary>Waits until it ends by itself.</summary>
    /// <returns>Its exit code.</returns>
    public async Task<int> EndAsync()
    {
        await _process.WaitForExitAsync(CancellationToken.None).WaitAsync(Patience);
        await _reading;
        return _process.ExitCode;
    }

    /// <summary>Ends it at once, as a power cut would (SIGKILL).</summary>
    public async Task KillAsync()
    {
        _process.Kill();
        await EndAsync();
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

    private async Task ReadAsync()
    {
        while (await _process.StandardOutput.ReadLineAsync(CancellationToken.None) is { } line)
        {
            // A line that a kill cut off is none.
            if (line.EndsWith('}'))
            {
                _events.Enqueue(JsonNode.Parse(line)!.AsObject());
            }
        }
    }
}

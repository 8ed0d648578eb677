using System.Collections.Concurrent;

using Microsoft.Extensions.Logging;

namespace ClearView.Server.Tests.Hosting;

/// <summary>Keeps what is written to the log.</summary>
internal sealed class RecordingLogs : ILoggerProvider
{
    public ConcurrentQueue<(string Category, LogLevel Level, string Message, Exception? Error)> Lines { get; } = [];

    public ILogger CreateLogger(string categoryName) => new Recorder(this, categoryName);

    public void Dispose()
    {
    }

    private sealed class Recorder(RecordingLogs logs, string category) : ILogger
    {
        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(
            LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) =>
            logs.Lines.Enqueue((category, logLevel, formatter(state, exception), exception));
    }
}

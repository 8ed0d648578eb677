using ClearView.Records.Model;

using Microsoft.Extensions.Time.Testing;

namespace ClearView.Records.Tests.Behaviour;

/// <summary>A store of one engine that goes away with the test.</summary>
internal abstract class TemporaryStore : IAsyncDisposable
{
    private IStore? _store;

    public static DateTimeOffset Noon { get; } = new(2026, 3, 2, 12, 0, 0, TimeSpan.Zero);

    public FakeTimeProvider Clock { get; } = new(Noon);

    public IReadingStore Store => Opened.Readings;

    public IVersionedStore Methods => Opened.Documents(VersionedKind.Method);

    public IStore Opened
    {
        get => _store ??= OpenAnotherAsync().GetAwaiter().GetResult();
        protected set => _store = value;
    }

    public static ReadingEntry Entry(int number, Func<ReadingEntry, ReadingEntry>? change = null)
    {
        var entry = new ReadingEntry
        {
            Id = Id(number),
            MeasuredAt = Noon.AddSeconds(number),
            Line = "line 1",
            Product = "clear 25",
            Lot = "L-7",
            Roll = "R-" + number / 10,
            Specimen = "S-" + number,
            Instrument = "sphere A",
            AcrossMm = 100 * (number % 5),
            AlongM = number / 2.0,
            Verdict = number % 2 == 0 ? [] : new byte[] { 5, (byte)number },
            Measurement = new byte[] { 1, 2, (byte)number },
            Method = new byte[] { 3 },
            Evaluation = new byte[] { 4, (byte)number },
            SoftwareVersion = "0.1.0",
            Values = [new MeasurandValue("haze", number / 100.0), new MeasurandValue("total_transmittance", 91.5)],
        };
        return change is null ? entry : change(entry);
    }

    public static Guid Id(int number) => new(number + 1, 0, 0, new byte[8]);

    /// <summary>Opens the same store again beside what is open, as another server does.</summary>
    public abstract Task<IStore> OpenAnotherAsync();

    public async Task<IReadingStore> ReopenAsync()
    {
        await CloseAsync();
        return Opened.Readings;
    }

    public async Task CloseAsync()
    {
        if (_store is not null)
        {
            await _store.DisposeAsync();
            _store = null;
        }
    }

    /// <summary>The first value that a statement gives, through a connection of its own.</summary>
    public abstract object? Scalar(string sql);

    /// <summary>What the engine can tell of its own integrity.</summary>
    public abstract void AssertIntact();

    /// <summary>That a closed store left nothing open.</summary>
    public abstract void AssertClosed();

    public async ValueTask DisposeAsync()
    {
        await CloseAsync();
        await RemoveAsync();
    }

    protected abstract ValueTask RemoveAsync();
}

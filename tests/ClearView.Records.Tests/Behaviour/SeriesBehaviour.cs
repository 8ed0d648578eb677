using ClearView.Records.Model;

namespace ClearView.Records.Tests.Behaviour;

/// <summary>Series of values, alike in every engine.</summary>
public abstract class SeriesBehaviour : IAsyncDisposable
{
    private readonly TemporaryStore _temporary;

    private protected SeriesBehaviour(TemporaryStore temporary) => _temporary = temporary;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private static SeriesQuery Haze { get; } = new() { Measurand = "haze", Line = "line 1" };

    public async ValueTask DisposeAsync()
    {
        await _temporary.DisposeAsync();
        GC.SuppressFinalize(this);
    }

    [Fact]
    public async Task Read_GivesEachValueWithTimeOrderAndPlace()
    {
        var stored = await Append(7);

        var row = Assert.Single(await Read(Haze));

        Assert.Equal(stored.Entry.MeasuredAt.UtcTicks, row.MeasuredAtTicks);
        Assert.Equal((stored.Sequence, 0.07, "", 200.0, 3.5), (row.Sequence, row.Value, row.Label, row.AcrossMm, row.AlongM));
    }

    [Fact]
    public async Task Read_IsInTheOrderOfMeasurement_WhateverTheOrderOfRecording()
    {
        foreach (var number in new[] { 5, 1, 9, 3, 7 })
        {
            await Append(number);
        }

        var rows = await Read(Haze);

        Assert.Equal([0.01, 0.03, 0.05, 0.07, 0.09], rows.Select(row => row.Value));
        Assert.Equal([2L, 4, 1, 5, 3], rows.Select(row => row.Sequence));
    }

    [Fact]
    public async Task Read_OfEqualTimes_IsInTheOrderOfRecording()
    {
        foreach (var number in new[] { 3, 1, 2 })
        {
            await Append(number, entry => entry with { MeasuredAt = TemporaryStore.Noon });
        }

        Assert.Equal([0.03, 0.01, 0.02], (await Read(Haze)).Select(row => row.Value));
    }

    [Fact]
    public async Task Read_FiltersByEachColumnAndByTime()
    {
        await Append(10);
        await Append(11, entry => entry with { Line = "line 2" });
        await Append(12, entry => entry with { Product = "opal" });
        await Append(13, entry => entry with { Lot = "L-8" });
        await Append(14, entry => entry with { Roll = "R-99" });
        await Append(15, entry => entry with { Instrument = "sphere B" });
        var any = new SeriesQuery { Measurand = "haze" };

        Assert.Equal([0.10, 0.11, 0.12, 0.13, 0.14, 0.15], await Values(any));
        Assert.Equal([0.11], await Values(any with { Line = "line 2" }));
        Assert.Equal([0.12], await Values(any with { Product = "opal" }));
        Assert.Equal([0.13], await Values(any with { Lot = "L-8" }));
        Assert.Equal([0.14], await Values(any with { Roll = "R-99" }));
        Assert.Equal([0.15], await Values(any with { Instrument = "sphere B" }));
        Assert.Equal([0.12, 0.13], await Values(any with
        {
            MeasuredFrom = TemporaryStore.Noon.AddSeconds(12),
            MeasuredBefore = TemporaryStore.Noon.AddSeconds(14),
        }));
        Assert.Empty(await Values(any with { Line = "line 2", Roll = "R-99" }));
        Assert.Empty(await Values(any with { Lot = "never recorded" }));
        Assert.Empty(await Values(any with { Measurand = "never recorded" }));
    }

    [Fact]
    public async Task Read_OfSeveralLines_IsSortedByTime()
    {
        for (var number = 0; number < 30; number++)
        {
            await Append(number, entry => entry with { Line = "line " + (number % 3) });
        }

        var values = await Values(new SeriesQuery { Measurand = "haze" });

        Assert.Equal(Enumerable.Range(0, 30).Select(number => number / 100.0), values);
    }

    [Fact]
    public async Task Read_BringsTheLabelThatWasAskedFor()
    {
        await Append(19);
        await Append(20);

        Assert.Equal(["R-1", "R-2"], (await Read(Haze with { Label = SeriesLabel.Roll })).Select(row => row.Label));
        Assert.Equal(["L-7", "L-7"], (await Read(Haze with { Label = SeriesLabel.Lot })).Select(row => row.Label));
    }

    [Fact]
    public async Task Read_WithoutPlace_GivesNaN()
    {
        await Append(1, entry => entry with { AcrossMm = null, AlongM = null });

        var row = Assert.Single(await Read(Haze));

        Assert.True(double.IsNaN(row.AcrossMm) && double.IsNaN(row.AlongM));
    }

    [Fact]
    public async Task Append_RolledBack_LeavesNoCodeBehind()
    {
        // The measurand twice breaks the key, after codes of the new roll and lot were made.
        await Assert.ThrowsAsync<ArgumentException>(() => Append(1, entry => entry with
        {
            Roll = "new roll",
            Lot = "new lot",
            Values = [new MeasurandValue("haze", 1), new MeasurandValue("haze", 2)],
        }));
        await Append(2, entry => entry with { Roll = "other roll" });
        await Append(3, entry => entry with { Roll = "new roll" });

        Assert.Equal([0.02], await Values(Haze with { Roll = "other roll" }));
        Assert.Equal([0.03], await Values(Haze with { Roll = "new roll" }));
        Assert.Equal(["other roll", "new roll"], (await Read(Haze with { Label = SeriesLabel.Roll })).Select(row => row.Label));
    }

    [Fact]
    public async Task Read_AfterReopening_IsTheSame()
    {
        await Append(1);
        await Append(2);
        var before = await Read(Haze);

        await _temporary.ReopenAsync();

        Assert.Equal(before, await Read(Haze));
    }

    [Fact]
    public async Task Read_Cancelled_Stops()
    {
        await Append(1);
        using var cancelled = new CancellationTokenSource();
        await cancelled.CancelAsync();

        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => _temporary.Opened.Series.ReadAsync(Haze, Ignore, cancelled.Token));
    }

    [Fact]
    public async Task Read_AfterDisposal_IsRefused()
    {
        var series = _temporary.Opened.Series;
        await _temporary.CloseAsync();

        await Assert.ThrowsAsync<ObjectDisposedException>(() => series.ReadAsync(Haze, Ignore, Token));
    }

    private static void Ignore(in SeriesRow row)
    {
    }

    private async Task<StoredReading> Append(int number, Func<ReadingEntry, ReadingEntry>? change = null) =>
        (await _temporary.Store.AppendAsync(TemporaryStore.Entry(number, change), Token)).Reading;

    private async Task<List<SeriesRow>> Read(SeriesQuery query)
    {
        List<SeriesRow> rows = [];
        var count = await _temporary.Opened.Series.ReadAsync(query, (in SeriesRow row) => rows.Add(row), Token);
        Assert.Equal(rows.Count, count);
        return rows;
    }

    private async Task<IEnumerable<double>> Values(SeriesQuery query) => (await Read(query)).Select(row => row.Value);
}

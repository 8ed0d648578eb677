using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Net;

using ClearView.Client;
using ClearView.Console.Demo.Scenario;
using ClearView.Console.Rendering;
using ClearView.Server;
using ClearView.Server.Configuration;
using ClearView.V1;

using Microsoft.Extensions.Logging;

namespace ClearView.Console.Demo;

/// <summary>A server on a temporary embedded store, the invented readings posted to it, and what it gives back.</summary>
internal static class DemoRun
{
    // Several stations post at once; the server commits what waits together.
    private const int Posters = 8;

    /// <summary>Seed of everything that is invented.</summary>
    public const int Seed = 20261125;

    /// <summary>Starts the server, posts the readings, and asks it for what the plant wants to know.</summary>
    /// <param name="screen">Takes the progress.</param>
    /// <param name="method">The method that the plant measures by.</param>
    /// <param name="barrierLimitPercent">Limit of the light-barrier screen, %.</param>
    /// <param name="shiftStart">Time of the first reading.</param>
    /// <param name="store">File to keep the store in, which must not exist; <see langword="null"/> for one that is gone afterwards.</param>
    /// <param name="cancellation">Stops it.</param>
    public static async Task<DemoResult> RunAsync(
        Screen screen, Method method, double barrierLimitPercent, DateTimeOffset shiftStart, string? store, CancellationToken cancellation)
    {
        var folder = Directory.CreateTempSubdirectory("clearview-demo-store-");
        try
        {
            await using var server = ClearViewServer.Build(new ServerOptions
            {
                Listen = new IPEndPoint(IPAddress.Loopback, 0),
                Store = store ?? Path.Combine(folder.FullName, "demo.db"),
                LogLevel = LogLevel.Warning,
            });
            await server.StartAsync(cancellation);
            await using var client = ClearViewClient.Connect(server.Address);
            var specification = await DemoDecisions.PrepareAsync(client, method, barrierLimitPercent, cancellation);
            var bottles = BottleSet.Generate(Seed, shiftStart);
            var signals = await PostAsync(screen, client, method, bottles, shiftStart, cancellation);
            var result = new DemoResult
            {
                Film = await ListAsync(client, FilmShift.Product, cancellation),
                Bottles = await ListBottlesAsync(client, bottles, cancellation),
                FilmSpecification = specification,
                Signals = signals,
                HazeChart = await DrawAsync(client, cancellation),
                Capability = await DemoDecisions.CapabilityAsync(client, cancellation),
                RollMap = await DemoDecisions.RollMapAsync(client, cancellation),
                Lots = await DemoDecisions.LotsAsync(client, cancellation),
                Bottle = await DemoDecisions.BottleAsync(client, shiftStart, cancellation),
            };
            await server.StopAsync(cancellation);
            return result;
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    // The first rolls give the limits of the control chart; from then on the line posts in order and hears of signals at once.
    private static async Task<ImmutableArray<(string Specimen, RaisedSignal Signal)>> PostAsync(
        Screen screen,
        ClearViewClient client,
        Method method,
        ImmutableArray<Measurement> bottles,
        DateTimeOffset shiftStart,
        CancellationToken cancellation)
    {
        var film = FilmShift.Generate(Seed, shiftStart);
        const int first = DemoDecisions.BaselineRolls * FilmShift.ReadingsPerRoll;
        var trial = ResinTrial.Generate(Seed, shiftStart);
        var specification = new SpecificationName { Name = DemoDecisions.FilmSpecification };
        var signals = ImmutableArray.CreateBuilder<(string, RaisedSignal)>();
        await screen.WithProgressAsync("posting", film.Length + bottles.Length + trial.Length, async step =>
        {
            for (var i = 0; i < film.Length; i++)
            {
                if (i == first)
                {
                    await DemoDecisions.StoreChartAsync(client, shiftStart, cancellation);
                }

                var one = film[i];
                var posted = await client.PostAsync(ReadingId.ForContent(one, method), one, specification, cancellation);
                signals.AddRange(posted.Signals.Select(signal => (one.Identification.Specimen, signal)));
                step();
            }

            await PostTogetherAsync(
                [.. bottles, .. trial], one => client.PostAsync(ReadingId.ForContent(one, method), one, method, cancellation), step);
            return true;
        });
        return signals.ToImmutable();
    }

    private static async Task PostTogetherAsync(ImmutableArray<Measurement> measurements, Func<Measurement, Task> post, Action step)
    {
        var waiting = new ConcurrentQueue<Measurement>(measurements);
        await Task.WhenAll(Enumerable.Range(0, Posters).Select(async _ =>
        {
            while (waiting.TryDequeue(out var measurement))
            {
                await post(measurement);
                lock (waiting)
                {
                    step();
                }
            }
        }));
    }

    private static async Task<ImmutableArray<DrawnControlChart>> DrawAsync(ClearViewClient client, CancellationToken cancellation)
    {
        var parts = ImmutableArray.CreateBuilder<DrawnControlChart>();
        var request = new GetControlChartRequest { ControlChartName = new ControlChartName { Name = DemoDecisions.HazeChart } };
        await foreach (var part in client.GetControlChartAsync(request, cancellation))
        {
            parts.Add(part);
        }

        return parts.ToImmutable();
    }

    private static async Task<ImmutableArray<Reading>> ListBottlesAsync(
        ClearViewClient client, ImmutableArray<Measurement> bottles, CancellationToken cancellation)
    {
        var readings = ImmutableArray.CreateBuilder<Reading>();
        foreach (var product in bottles.Select(bottle => bottle.Identification.Product).Distinct())
        {
            readings.AddRange(await ListAsync(client, product, cancellation));
        }
        return readings.ToImmutable();
    }

    private static async Task<ImmutableArray<Reading>> ListAsync(ClearViewClient client, string product, CancellationToken cancellation)
    {
        var readings = ImmutableArray.CreateBuilder<Reading>();
        await foreach (var reading in client.ListAsync(new ListReadingsRequest { Product = product }, cancellation))
        {
            readings.Add(reading);
        }
        return readings.ToImmutable();
    }
}

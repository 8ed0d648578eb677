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

    /// <summary>Starts the server, posts both sets of readings, and lists them again with their spectra.</summary>
    /// <returns>The readings of the film shift and of the bottle set, as the server lists them.</returns>
    public static async Task<(ImmutableArray<Reading> Film, ImmutableArray<Reading> Bottles)> PostAndListAsync(
        Screen screen, Method method, DateTimeOffset shiftStart, CancellationToken cancellation)
    {
        var folder = Directory.CreateTempSubdirectory("clearview-demo-store-");
        try
        {
            await using var server = ClearViewServer.Build(new ServerOptions
            {
                Listen = new IPEndPoint(IPAddress.Loopback, 0),
                Store = Path.Combine(folder.FullName, "demo.db"),
                LogLevel = LogLevel.Warning,
            });
            await server.StartAsync(cancellation);
            await using var client = ClearViewClient.Connect(server.Address);
            var film = FilmShift.Generate(Seed, shiftStart);
            var bottles = BottleSet.Generate(Seed, shiftStart);
            await screen.WithProgressAsync("posting", film.Length + bottles.Length, async step =>
            {
                await PostAsync(client, [.. film, .. bottles], method, step, cancellation);
                return true;
            });
            var listed = (
                await ListAsync(client, film[0].Identification.Product, cancellation),
                await ListBottlesAsync(client, bottles, cancellation));
            await server.StopAsync(cancellation);
            return listed;
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static async Task PostAsync(
        ClearViewClient client, ImmutableArray<Measurement> measurements, Method method, Action step, CancellationToken cancellation)
    {
        var waiting = new ConcurrentQueue<Measurement>(measurements);
        await Task.WhenAll(Enumerable.Range(0, Posters).Select(async _ =>
        {
            while (waiting.TryDequeue(out var measurement))
            {
                await client.PostAsync(ReadingId.ForContent(measurement, method), measurement, method, cancellation);
                lock (waiting)
                {
                    step();
                }
            }
        }));
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

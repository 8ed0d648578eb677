using System.Diagnostics;

using ClearView.Client;
using ClearView.EndToEnd.Tests.Lines;
using ClearView.EndToEnd.Tests.Servers;
using ClearView.V1;

using Microsoft.Data.Sqlite;

namespace ClearView.EndToEnd.Tests.Faults;

/// <summary>Bytes of a store file rot on the disk while no server runs.</summary>
public sealed class DamagedStoreTests : IAsyncLifetime
{
    private const int Readings = 300;
    private const int PageBytes = 4096;

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-damaged-store-");
    private readonly List<PostReadingRequest> _readings = new ReadingMaker("line 1", seed: 29).Next(Readings);

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private string Store => Path.Combine(_folder.FullName, "readings.db");

    public async ValueTask InitializeAsync()
    {
        using var server = await ServerProcess.StartAsync(Store, Token);
        await using var client = ClearViewClient.Connect(server.Address);
        foreach (var reading in _readings)
        {
            await client.PostAsync(reading, Token);
        }

        Assert.Equal(0, (await server.TerminateAsync()).ExitCode);
    }

    public ValueTask DisposeAsync()
    {
        _folder.Delete(recursive: true);
        return ValueTask.CompletedTask;
    }

    [Fact]
    public async Task Page_OneByteOfAReadingRots_VerificationNamesTheReadingAndTheOthersAreServed()
    {
        // SQLite has no checksums: the page is whole to it, and only the chain can tell.
        var rotten = _readings[Readings / 2];
        var place = PlaceOf(rotten);
        Overwrite(place, [(byte)(File.ReadAllBytes(Store)[place] ^ 0x01)]);

        var (exitCode, output) = await VerifyAsync();

        Assert.Equal(1, exitCode);
        Assert.Contains(rotten.ReadingId, output, StringComparison.Ordinal);
        using var server = await ServerProcess.StartAsync(Store, Token);
        await using var client = ClearViewClient.Connect(server.Address);
        foreach (var reading in _readings.Where(reading => reading != rotten))
        {
            Assert.Equal(reading.Measurement, (await client.GetAsync(Guid.Parse(reading.ReadingId), Token)).Measurement);
        }
    }

    [Fact]
    public async Task Page_OverwrittenAsAWhole_IsDetectedAndNeverAnsweredAsIfItWereRight()
    {
        var rotten = _readings[Readings / 2];
        Overwrite(PlaceOf(rotten) / PageBytes * PageBytes, [.. Enumerable.Repeat((byte)0xA5, PageBytes)]);

        var (exitCode, output) = await VerifyAsync();

        Assert.NotEqual(0, exitCode);
        Assert.NotEmpty(output);
        Assert.DoesNotContain("   at ", output, StringComparison.Ordinal);
        using var server = await ServerProcess.StartAsync(Store, Token);
        await using var client = ClearViewClient.Connect(server.Address, new ClearViewClientOptions { MaxAttempts = 1 });
        var (right, refused) = (0, 0);
        foreach (var reading in _readings)
        {
            try
            {
                Assert.Equal(reading.Measurement, (await client.GetAsync(Guid.Parse(reading.ReadingId), Token)).Measurement);
                right++;
            }
            catch (ClearViewCallException fault)
            {
                Assert.DoesNotContain("Exception", fault.Message, StringComparison.Ordinal);
                refused++;
            }
        }

        Assert.True(right > 0 && refused > 0, $"{right} readings were given, {refused} were not");
    }

    // Where the reading's scans lie in the file: after the identifier's bytes, in the page of its row.
    private long PlaceOf(PostReadingRequest reading)
    {
        var id = Guid.Parse(reading.ReadingId).ToByteArray(bigEndian: true);
        using var connection = new SqliteConnection($"Data Source={Store};Mode=ReadOnly;Pooling=False");
        connection.Open();
        using var command = new SqliteCommand("SELECT measurement FROM reading WHERE id = @id", connection);
        command.Parameters.AddWithValue("@id", id);
        var measurement = (byte[])command.ExecuteScalar()!;
        var file = File.ReadAllBytes(Store);

        // The scans of no other reading begin alike; a long row goes on in another page, so that a short stretch is looked for.
        var scan = new byte[sizeof(double) * 3];
        for (var i = 0; i < 3; i++)
        {
            BitConverter.TryWriteBytes(scan.AsSpan(i * sizeof(double)), reading.Measurement.Scans.Sphere.TotalReading[i + 4]);
        }

        Assert.True(measurement.AsSpan().IndexOf(scan) > 0);
        var at = file.AsSpan().IndexOf(scan);
        Assert.True(at > 0, "the scans of the reading were not found in the file");
        return at + sizeof(double);
    }

    private void Overwrite(long at, byte[] bytes)
    {
        using var file = new FileStream(Store, FileMode.Open, FileAccess.ReadWrite);
        file.Position = at;
        file.Write(bytes);
    }

    private async Task<(int ExitCode, string Output)> VerifyAsync()
    {
        using var process = Process.Start(new ProcessStartInfo(
            Environment.GetEnvironmentVariable("DOTNET_HOST_PATH") ?? "dotnet",
            [Path.Combine(AppContext.BaseDirectory, "clearview.dll"), "audit", "verify", "--store", Store])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = _folder.FullName,
        })!;
        var output = process.StandardOutput.ReadToEndAsync(Token);
        var error = process.StandardError.ReadToEndAsync(Token);
        await process.WaitForExitAsync(Token);
        return (process.ExitCode, await output + await error);
    }
}

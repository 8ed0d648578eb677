using ClearView.Client;
using ClearView.EndToEnd.Tests.Lines;
using ClearView.EndToEnd.Tests.Servers;
using ClearView.V1;

using Grpc.Core;
using Grpc.Health.V1;

namespace ClearView.EndToEnd.Tests.Faults;

/// <summary>A disk that fills up under the embedded store: a file system in memory that only the server sees.</summary>
public sealed class FullDiskTests : IDisposable
{
    private const int DiskMegabytes = 8;

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-full-");
    private readonly List<PostReadingRequest> _acknowledged = [];

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private ServerSetUp SetUp => new(Path.Combine(_folder.FullName, "readings.db"))
    {
        Wrapper =
        [
            "unshare", "--user", "--map-root-user", "--mount", "sh", "-c",
            FormattableString.Invariant($"mount -t tmpfs -o size={DiskMegabytes}m tmpfs \"$1\" && cd \"$1\" && shift && exec \"$@\""), "sh", _folder.FullName,
        ],
    };

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Disk_FillsUpAndGetsRoomAgain_RefusesMeanwhileAndLosesNothing()
    {
        using var server = await ServerProcess.StartAsync(SetUp, Token);
        await using var client = ClearViewClient.Connect(server.Address, new ClearViewClientOptions { MaxAttempts = 1 });
        var readings = new ReadingMaker("line 1", seed: 11);

        // What lies beside the store takes most of the disk; readings take the rest.
        var filler = FillerOf(server);
        await File.WriteAllBytesAsync(filler, new byte[(DiskMegabytes - 3) * 1024 * 1024], Token);
        var (refused, failure) = await PostUntilRefusedAsync(client, readings);

        Assert.Equal(StatusCode.Unavailable, failure.Status);
        Assert.Equal(HealthCheckResponse.Types.ServingStatus.NotServing, await StatusAsync(server));
        Assert.NotEmpty(_acknowledged);
        await client.GetAsync(Guid.Parse(_acknowledged[0].ReadingId), Token);

        File.Delete(filler);

        Assert.False((await client.PostAsync(refused, Token)).AlreadyStored);
        _acknowledged.Add(refused);
        Assert.Equal(HealthCheckResponse.Types.ServingStatus.Serving, await StatusAsync(server));
        foreach (var reading in readings.Next(20))
        {
            await client.PostAsync(reading, Token);
            _acknowledged.Add(reading);
        }

        await Inventory.CheckAsync(server.Address, _acknowledged, Token);
    }

    // The server's own view of the file system.
    private string FillerOf(ServerProcess server) => FormattableString.Invariant($"/proc/{server.Id}/root{_folder.FullName}/filler");

    private async Task<(PostReadingRequest Refused, ClearViewCallException Failure)> PostUntilRefusedAsync(ClearViewClient client, ReadingMaker readings)
    {
        while (true)
        {
            var reading = readings.Next();
            try
            {
                await client.PostAsync(reading, Token);
                _acknowledged.Add(reading);
            }
            catch (ClearViewCallException failure)
            {
                return (reading, failure);
            }
        }
    }

    private static async Task<HealthCheckResponse.Types.ServingStatus> StatusAsync(ServerProcess server)
    {
        using var channel = server.Connect();
        return (await new Health.HealthClient(channel).CheckAsync(new HealthCheckRequest(), cancellationToken: Token)).Status;
    }
}

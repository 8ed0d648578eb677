using System.Diagnostics;

using ClearView.Client.Files;
using ClearView.Contract.Tests;
using ClearView.EndToEnd.Tests.Servers;
using ClearView.V1;

using Grpc.Core;
using Grpc.Health.V1;

namespace ClearView.EndToEnd.Tests.Hostile;

/// <summary>Damaged files of scans and of values, for a bounded time and from fixed seeds: what is still read from them is posted.</summary>
public sealed class DamagedFilesTests : IDisposable
{
    private const long MostResidentBytes = 1024L * 1024 * 1024;

    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(15);

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-files-");

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public void Dispose() => _folder.Delete(recursive: true);

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public async Task Read_DamagedFiles_GivesMeasurementsOrAFaultAndTheServerAnswersThem(int seed)
    {
        var mutator = new ByteMutator(new Random(seed));
        byte[][] scans = [Sample("film-total-diffuse.csv"), Sample("hazemeter.csv")];
        var values = Sample("roll-14.csv");
        using var server = await ServerProcess.StartAsync(Path.Combine(_folder.FullName, "readings.db"), Token);
        using var channel = server.Connect();
        var readings = new ReadingService.ReadingServiceClient(channel);
        var (files, faults, read, stored) = (0, 0, 0, 0);
        for (var since = Stopwatch.StartNew(); since.Elapsed < Longest; files++)
        {
            ReadValues(mutator.Mutate(values));
            var specimens = ReadScans(mutator.Mutate(scans[files % scans.Length]));
            faults += specimens is null ? 1 : 0;
            foreach (var specimen in specimens ?? [])
            {
                read++;
                var status = await PostAsync(readings, specimen.Measurement);
                Assert.True(status is StatusCode.OK or StatusCode.InvalidArgument, $"file {files} of seed {seed}: {status}");
                stored += status == StatusCode.OK ? 1 : 0;
            }
        }

        Assert.True(faults >= 10 && stored >= 10, $"of {files} files {faults} were refused; {read} specimens were read, {stored} of them stored");
        Assert.Equal(HealthCheckResponse.Types.ServingStatus.Serving, (await new Health.HealthClient(channel).CheckAsync(new HealthCheckRequest(), cancellationToken: Token)).Status);
        using (var process = Process.GetProcessById(server.Id))
        {
            Assert.InRange(process.WorkingSet64, 1, MostResidentBytes);
        }

        var listed = 0;
        for (var request = new ListReadingsRequest { PageSize = 1000 }; ;)
        {
            var page = await readings.ListReadingsAsync(request, cancellationToken: Token);
            listed += page.Readings.Count;
            if (page.NextPageToken.Length == 0)
            {
                break;
            }

            request.PageToken = page.NextPageToken;
        }

        Assert.Equal(stored, listed);
        var (exitCode, log) = await server.TerminateAsync();
        Assert.Equal(0, exitCode);
        Assert.DoesNotContain("fail:", log, StringComparison.Ordinal);
    }

    private static byte[] Sample(string name) => File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "Samples", name));

    // The specimens, or null for a fault of the file. A fault that is not of the file's reader fails the test.
    private static IReadOnlyList<ScannedSpecimen>? ReadScans(byte[] file)
    {
        try
        {
            using var stream = new MemoryStream(file);
            return ScanFileReader.Read(stream, "scan.csv", ScanFileOptions.None);
        }
        catch (ScanFileException fault)
        {
            Assert.NotEmpty(fault.Problem);
            return null;
        }
    }

    private static void ReadValues(byte[] file)
    {
        try
        {
            using var stream = new MemoryStream(file);
            Assert.NotEmpty(ValueTableReader.Read(stream, "values.csv", ValueTableOptions.None).Measurands);
        }
        catch (ScanFileException fault)
        {
            Assert.NotEmpty(fault.Problem);
        }
    }

    private static async Task<StatusCode> PostAsync(ReadingService.ReadingServiceClient readings, Measurement measurement)
    {
        try
        {
            await readings.PostReadingAsync(
                new PostReadingRequest { ReadingId = Guid.CreateVersion7().ToString(), Measurement = measurement, Method = WireExamples.Method() },
                cancellationToken: Token);
            return StatusCode.OK;
        }
        catch (RpcException refusal)
        {
            return refusal.StatusCode;
        }
    }
}

using System.Diagnostics;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;

using ClearView.Contract.Tests;
using ClearView.Contract.Tests.Pictures;
using ClearView.Records.Model;
using ClearView.Records.Sqlite;
using ClearView.Server.Configuration;
using ClearView.Server.Extracts;
using ClearView.V1;

using Google.Protobuf;

using Grpc.Core;

namespace ClearView.Server.Tests.Services;

/// <summary>Signed extracts, checked by OpenSSL and by our own check.</summary>
public sealed class ExtractTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-extract-");

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private string KeyFile => Path.Combine(_folder.FullName, "audit-key.pem");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Export_IsSignedAsOpenSslChecksIt()
    {
        var (extract, signature) = await ExportAsync();
        var file = Path.Combine(_folder.FullName, "lot.json");
        await File.WriteAllBytesAsync(file, extract, Token);
        await File.WriteAllBytesAsync(file + ".sig", signature.Signature.ToByteArray(), Token);
        OpenSsl("ec", "-in", KeyFile, "-pubout", "-out", file + ".pem");

        Assert.Contains("Verified OK", OpenSsl("dgst", "-sha256", "-verify", file + ".pem", "-signature", file + ".sig", file), StringComparison.Ordinal);
        Assert.Equal(File.ReadAllText(file + ".pem").Trim(), signature.PublicKeyPem.Trim());
        Assert.Equal(new ExtractCheck(3, null), ExtractChecker.Check(extract, signature.Signature.Span, signature.PublicKeyPem));
    }

    [Fact]
    public async Task Export_HoldsTheSupersededReadingToo()
    {
        var (extract, signature) = await ExportAsync();

        var file = JsonNode.Parse(extract)!;
        Assert.Equal(3, signature.ReadingCount);
        Assert.Equal(1, file["readings"]!.AsArray().Count(one => one!["reading"]!["supersededBy"] is not null));
        Assert.StartsWith("1:4:", (string)file["heads"]![0]!, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Export_OfReadingsThatRaisedSignals_HoldsThemWithTheirLinks()
    {
        var (extract, signature) = await ExportSignalsAsync();

        Assert.Equal(new ExtractCheck(3, null) { SignalCount = 2 }, ExtractChecker.Check(extract, signature.Signature.Span, signature.PublicKeyPem));
        var readings = JsonNode.Parse(extract)!["readings"]!.AsArray();
        Assert.Equal([false, true, true], readings.Select(one => one!["signals"] is not null));
        Assert.Equal("CONTROL_PATTERN_BEYOND_LIMITS", (string)readings[1]!["signals"]!["raised"]!["signals"]![0]!["pattern"]!);
        Assert.NotEqual((long)readings[1]!["link"]!["position"]!, (long)readings[1]!["signals"]!["link"]!["position"]!);
    }

    [Theory]
    [InlineData("record", "", "for a person")]
    [InlineData("raised", null, "for a person")]
    [InlineData("link", null, "no link")]
    public async Task Check_OfSignalsChanged_FindsTheChange(string part, string? value, string expected)
    {
        var (extract, _) = await ExportSignalsAsync();
        var file = JsonNode.Parse(extract)!;
        var signals = file["readings"]![1]!["signals"]!.AsObject();
        if (part == "link")
        {
            signals.Remove(part);
        }
        else
        {
            signals[part] = value is null ? new JsonObject() : value;
        }

        var check = await CheckSignedAnewAsync(file);

        Assert.Equal(1, check.ReadingCount);
        Assert.Contains(expected, check.Fault, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Check_OfSignalsOfAnotherReading_FindsThem()
    {
        var (extract, _) = await ExportSignalsAsync();
        var file = JsonNode.Parse(extract)!;
        file["readings"]![1]!["signals"] = file["readings"]![2]!["signals"]!.DeepClone();

        Assert.Contains("the record of its signals is not what it was", (await CheckSignedAnewAsync(file)).Fault, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Export_OfAReadingLargerThanAMessage_ComesInPartsThatFit()
    {
        OpenSsl("ecparam", "-name", "prime256v1", "-genkey", "-noout", "-out", KeyFile);
        await using var store = SqliteStore.Open(Path.Combine(_folder.FullName, "large.db"), TimeProvider.System);
        var evaluation = new Evaluation { Values = { Enumerable.Range(0, 60_000).Select(i => new MeasuredValue { Measurand = $"measurand_{i}", Value = i / 7.0 }) } };
        for (var i = 0; i < 3; i++)
        {
            await store.Readings.AppendAsync(Entry(i, evaluation), Token);
        }

        List<ExportExtractResponse> parts = [];
        var writer = new ExtractWriter(store.Readings, store.Audit, new ExtractKey(new ServerOptions { AuditKeyFile = KeyFile }), TimeProvider.System);
        await writer.WriteAsync(
            new ExportExtractRequest { Lot = "L-7" },
            part =>
            {
                parts.Add(part);
                return Task.CompletedTask;
            },
            Token);

        var extract = parts.SelectMany(part => part.Content).ToArray();
        Assert.True(extract.Length > 3 * 4 * 1024 * 1024, $"{extract.Length} bytes are no test of this");
        Assert.All(parts, part => Assert.InRange(part.CalculateSize(), 1, 1024 * 1024));
        Assert.Equal(new ExtractCheck(3, null), ExtractChecker.Check(extract, parts[^1].Signature.Signature.Span, parts[^1].Signature.PublicKeyPem));
    }

    // Small readings gather: a message for each would be thousands.
    [Fact]
    public async Task Export_OfManySmallReadings_GathersThem()
    {
        OpenSsl("ecparam", "-name", "prime256v1", "-genkey", "-noout", "-out", KeyFile);
        await using var store = SqliteStore.Open(Path.Combine(_folder.FullName, "many.db"), TimeProvider.System);
        for (var i = 0; i < 400; i++)
        {
            await store.Readings.AppendAsync(Entry(i, new Evaluation()), Token);
        }

        var (count, bytes) = (0, 0L);
        var writer = new ExtractWriter(store.Readings, store.Audit, new ExtractKey(new ServerOptions { AuditKeyFile = KeyFile }), TimeProvider.System);
        await writer.WriteAsync(
            new ExportExtractRequest { Lot = "L-7" },
            part =>
            {
                (count, bytes) = (count + 1, bytes + part.Content.Length);
                return Task.CompletedTask;
            },
            Token);

        Assert.InRange(count, 2, 2 + (2 * bytes / (256 * 1024)));
    }

    [Fact]
    public async Task Check_OfAnythingChanged_SaysSo()
    {
        var (extract, signature) = await ExportAsync();
        extract[extract.Length / 2] ^= 1;

        Assert.Contains("signature", ExtractChecker.Check(extract, signature.Signature.Span, signature.PublicKeyPem).Fault, StringComparison.Ordinal);
        Assert.Contains("PEM", ExtractChecker.Check(extract, signature.Signature.Span, "no key").Fault, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("record", "specimen", "another", "for a person")]
    [InlineData("reading", "softwareVersion", "9", "for a person")]
    [InlineData("link", "sha256", "0000000000000000000000000000000000000000000000000000000000000000", "does not follow")]
    [InlineData("link", "recordSha256", "0000000000000000000000000000000000000000000000000000000000000000", "not what it was")]
    public async Task Check_OfAnExtractSignedAnewAfterAChange_FindsTheChange(string part, string name, string value, string expected)
    {
        var (extract, _) = await ExportAsync();
        var file = JsonNode.Parse(extract)!;
        file["readings"]![1]![part]![name] = value;
        if (part == "record")
        {
            // The words for a person are written from the payloads; the column alone changes the hash of the record.
            expected = "not what it was";
        }

        var check = await CheckSignedAnewAsync(file);

        Assert.Equal(1, check.ReadingCount);
        Assert.Contains(expected, check.Fault, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Export_WithoutAKeyOrAReading_SaysWhatToDo()
    {
        await using var server = await TestServer.StartAsync();

        var noKey = await Assert.ThrowsAsync<RpcException>(() => ReadAsync(server, new ExportExtractRequest { Lot = "L-7" }));
        var nothing = await Assert.ThrowsAsync<RpcException>(() => ReadAsync(server, new ExportExtractRequest()));

        Assert.Equal(StatusCode.FailedPrecondition, noKey.StatusCode);
        Assert.Contains("openssl ecparam -name prime256v1", noKey.Status.Detail, StringComparison.Ordinal);
        Assert.Equal(StatusCode.InvalidArgument, nothing.StatusCode);
    }

    private static ReadingEntry Entry(int number, Evaluation evaluation) => new()
    {
        Id = new Guid(number + 1, 0, 0, new byte[8]),
        MeasuredAt = WireExamples.Clock.GetUtcNow().AddSeconds(number),
        Line = "line 3",
        Product = "clear 25",
        Lot = "L-7",
        Roll = "",
        Specimen = "",
        Instrument = "",
        SoftwareVersion = "1",
        Method = WireExamples.Method().ToByteArray(),
        Measurement = WireExamples.Sphere().ToByteArray(),
        Evaluation = evaluation.ToByteArray(),
        Values = [.. evaluation.Values.Select(value => new MeasurandValue(value.Measurand, value.Value))],
    };

    // What somebody could do who has the server's key.
    private async Task<ExtractCheck> CheckSignedAnewAsync(JsonNode file)
    {
        var forged = Encoding.UTF8.GetBytes(file.ToJsonString());
        using var key = ECDsa.Create();
        key.ImportFromPem(await File.ReadAllTextAsync(KeyFile, Token));
        var signature = key.SignData(forged, HashAlgorithmName.SHA256, DSASignatureFormat.Rfc3279DerSequence);
        return ExtractChecker.Check(forged, signature, key.ExportSubjectPublicKeyInfoPem());
    }

    private async Task<(byte[] Extract, ExtractSignature Signature)> ExportSignalsAsync()
    {
        OpenSsl("ecparam", "-name", "prime256v1", "-genkey", "-noout", "-out", KeyFile);
        await using var server = await TestServer.StartAsync(configure: options => options with { AuditKeyFile = KeyFile });
        await server.ControlCharts.StoreControlChartAsync(ChartExamples.Store(), cancellationToken: Token);
        foreach (var (i, haze) in new[] { 2.0, 2.35, 2.4 }.Index())
        {
            await ChartExamples.PostAsync(server, i, i, haze);
        }

        return await ReadAsync(server, new ExportExtractRequest { Line = "line 3" });
    }

    private async Task<(byte[] Extract, ExtractSignature Signature)> ExportAsync()
    {
        OpenSsl("ecparam", "-name", "prime256v1", "-genkey", "-noout", "-out", KeyFile);
        await using var server = await TestServer.StartAsync(configure: options => options with { AuditKeyFile = KeyFile });
        var ids = Enumerable.Range(1, 3).Select(number => new Guid(number, 0, 0, new byte[8]).ToString("D")).ToList();
        foreach (var id in ids)
        {
            var request = new PostReadingRequest { ReadingId = id, Measurement = WireExamples.Sphere(), Method = WireExamples.Method() };
            request.Measurement.Identification.Lot = "L-7";
            if (id == ids[2])
            {
                request.Corrects = new Correction { ReadingId = ids[0], Reason = "wrong roll typed", Person = "E. Marsh" };
                request.Picture = ByteString.CopyFrom(PictureExamples.Png());
                request.Origin = new Origin { Person = "E. Marsh" };
            }

            await server.Readings.PostReadingAsync(request, cancellationToken: Token);
        }

        await server.Readings.PostReadingAsync(
            new PostReadingRequest { ReadingId = new Guid(9, 0, 0, new byte[8]).ToString("D"), Measurement = WireExamples.Normalised(), Method = WireExamples.Method() },
            cancellationToken: Token);
        return await ReadAsync(server, new ExportExtractRequest { Lot = "L-7" });
    }

    private static async Task<(byte[] Extract, ExtractSignature Signature)> ReadAsync(TestServer server, ExportExtractRequest request)
    {
        using var call = server.Audit.ExportExtract(request, cancellationToken: Token);
        using var extract = new MemoryStream();
        ExtractSignature? signature = null;
        await foreach (var part in call.ResponseStream.ReadAllAsync(Token))
        {
            Assert.Null(signature);
            signature = part.Signature;
            part.Content.WriteTo(extract);
        }

        return (extract.ToArray(), signature!);
    }

    private static string OpenSsl(params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo("openssl", arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        var output = process.StandardOutput.ReadToEnd();
        var errors = process.StandardError.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, errors + output);
        return output;
    }
}

using System.Buffers;
using System.Security.Cryptography;
using System.Text.Encodings.Web;
using System.Text.Json;

using ClearView.Records.Audit;
using ClearView.Records.Model;
using ClearView.Server.Services;
using ClearView.V1;

using Google.Protobuf;

using Grpc.Core;

namespace ClearView.Server.Extracts;

/// <summary>Writes extracts: a reading in memory at a time, hashed as it goes, signed at the end.</summary>
internal sealed class ExtractWriter(IReadingStore store, IAuditStore audit, ExtractKey keys, TimeProvider clock)
{
    private const int ChunkBytes = 256 * 1024;

    private const string About =
        "Each reading stands twice: as \"reading\" for a person, and as \"record\", the bytes that its hash was made of. \"link\" is its place in "
        + "a chain that holds every record of the store. What a reading raised on control charts stands as \"signals\", with a link of its own. Check the signature with: openssl dgst -sha256 -verify KEY.pem -signature FILE.sig FILE; "
        + "check everything with: clearview audit check FILE --public-key KEY.pem";

    /// <summary>Writes an extract.</summary>
    /// <param name="request">Which readings, checked.</param>
    /// <param name="send">Takes the parts, in order.</param>
    /// <param name="cancellationToken">Stops the writing.</param>
    /// <exception cref="RpcException">There is no key, or no reading.</exception>
    public async Task<long> WriteAsync(ExportExtractRequest request, Func<ExportExtractResponse, Task> send, CancellationToken cancellationToken)
    {
        using var key = keys.Open();
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        var buffer = new ArrayBufferWriter<byte>(ChunkBytes);
        var json = new Utf8JsonWriter(buffer, new JsonWriterOptions { Indented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping });
        await using var ofFile = json.ConfigureAwait(false);
        var count = 0L;
        Begin(json, request);
        await foreach (var stored in store.ReadEveryAsync(Query(request), cancellationToken).ConfigureAwait(false))
        {
            var links = await audit.LinksAsync(Keys(stored), cancellationToken).ConfigureAwait(false);
            ExtractFormat.Write(
                json, stored, LinkOf(links, RecordKey.Reading(stored.Sequence)), LinkOf(links, RecordKey.Signals(stored.Sequence)));
            count++;
            if (json.BytesPending + buffer.WrittenCount >= ChunkBytes)
            {
                await FlushAsync().ConfigureAwait(false);
            }
        }

        if (count == 0)
        {
            throw new RpcException(new Status(StatusCode.NotFound, "No reading matches; there is nothing to export."));
        }

        End(json, await audit.HeadsAsync(cancellationToken).ConfigureAwait(false), count);
        await FlushAsync().ConfigureAwait(false);
        var signature = key.SignHash(hash.GetHashAndReset(), DSASignatureFormat.Rfc3279DerSequence);
        await send(new ExportExtractResponse
        {
            Signature = new ExtractSignature
            {
                Signature = ByteString.CopyFrom(signature),
                PublicKeyPem = key.ExportSubjectPublicKeyInfoPem() + "\n",
                ReadingCount = count,
            },
        }).ConfigureAwait(false);
        return count;

        async Task FlushAsync()
        {
            await json.FlushAsync(cancellationToken).ConfigureAwait(false);
            hash.AppendData(buffer.WrittenSpan);

            // One reading may be larger than a message may be.
            for (var sent = 0; sent < buffer.WrittenCount; sent += ChunkBytes)
            {
                var part = buffer.WrittenMemory.Slice(sent, Math.Min(ChunkBytes, buffer.WrittenCount - sent));
                await send(new ExportExtractResponse { Content = ByteString.CopyFrom(part.Span) }).ConfigureAwait(false);
            }

            buffer.ResetWrittenCount();
        }
    }

    private static RecordKey[] Keys(StoredReading stored) => stored.Signals.IsEmpty
        ? [RecordKey.Reading(stored.Sequence)]
        : [RecordKey.Reading(stored.Sequence), RecordKey.Signals(stored.Sequence)];

    private static PlacedLink? LinkOf(IEnumerable<PlacedLink> links, RecordKey record) => links.FirstOrDefault(link => link.Link.Record == record);

    private static ReadingQuery Query(ExportExtractRequest request) => new()
    {
        Line = request.Line.Length == 0 ? null : request.Line,
        Product = request.Product.Length == 0 ? null : request.Product,
        Lot = request.Lot.Length == 0 ? null : request.Lot,
    };

    private void Begin(Utf8JsonWriter json, ExportExtractRequest request)
    {
        json.WriteStartObject();
        json.WriteString("format", ExtractFormat.Name);
        json.WriteString("about", About);
        json.WriteString("madeAt", clock.GetUtcNow().UtcDateTime);
        json.WriteString("serverVersion", SoftwareVersion.Text);
        json.WriteStartObject("filters");
        json.WriteString("line", request.Line);
        json.WriteString("product", request.Product);
        json.WriteString("lot", request.Lot);
        json.WriteEndObject();
        json.WriteStartArray("readings");
    }

    private static void End(Utf8JsonWriter json, IEnumerable<Records.Audit.ChainHead> heads, long count)
    {
        json.WriteEndArray();
        json.WriteNumber("readingCount", count);
        json.WriteStartArray("heads");
        foreach (var head in heads)
        {
            json.WriteStringValue(head.ToString());
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }
}

using System.Security.Cryptography;
using System.Text.Json;
using System.Text.Json.Nodes;

using ClearView.Records.Audit;
using ClearView.Records.Model;

using Google.Protobuf;

namespace ClearView.Server.Extracts;

/// <summary>Checks extracts without a server: the signature, every record's hash and every link.</summary>
public static class ExtractChecker
{
    /// <summary>Checks one.</summary>
    /// <param name="extract">The file.</param>
    /// <param name="signature">Its signature, DER.</param>
    /// <param name="publicKeyPem">The public key of the server, PEM; got from somewhere else than the extract.</param>
    /// <returns>What was found.</returns>
    public static ExtractCheck Check(ReadOnlyMemory<byte> extract, ReadOnlySpan<byte> signature, string publicKeyPem)
    {
        if (!IsSigned(extract.Span, signature, publicKeyPem, out var keyFault))
        {
            return new ExtractCheck(0, keyFault ?? "the signature does not belong to this file and this key");
        }

        try
        {
            using var document = JsonDocument.Parse(extract);
            return Check(document.RootElement);
        }
        catch (Exception error) when (error is JsonException or FormatException or InvalidOperationException or KeyNotFoundException
            or InvalidProtocolBufferException or ArgumentException)
        {
            return new ExtractCheck(0, "the file is signed, but is no extract that this version knows: " + error.Message);
        }
    }

    private static bool IsSigned(ReadOnlySpan<byte> extract, ReadOnlySpan<byte> signature, string publicKeyPem, out string? keyFault)
    {
        keyFault = null;
        using var key = ECDsa.Create();
        try
        {
            key.ImportFromPem(publicKeyPem);
            return key.VerifyData(extract, signature, HashAlgorithmName.SHA256, DSASignatureFormat.Rfc3279DerSequence);
        }
        catch (Exception error) when (error is ArgumentException or CryptographicException)
        {
            keyFault = "the public key cannot be read as one in PEM";
            return false;
        }
    }

    private static ExtractCheck Check(JsonElement file)
    {
        if (file.GetProperty("format").GetString() is not (ExtractFormat.Name or ExtractFormat.NameWithoutSignals) and var format)
        {
            return new ExtractCheck(0, $"the file is of the form \"{format}\", which this version does not know");
        }

        Dictionary<(long Chain, long Position), string> hashes = [];
        var count = 0L;
        var signals = 0L;
        foreach (var one in file.GetProperty("readings").EnumerateArray())
        {
            if (Check(one, hashes) is { } fault)
            {
                return new ExtractCheck(count, $"reading {one.GetProperty("reading").GetProperty("readingId").GetString()}: {fault}");
            }

            count++;
            signals += one.TryGetProperty("signals", out _) ? 1 : 0;
        }

        foreach (var text in file.GetProperty("heads").EnumerateArray().Select(head => head.GetString() ?? ""))
        {
            if (!ChainHead.TryParse(text, out var head)
                || (hashes.TryGetValue((head.Chain, head.Position), out var known) && known != head.Sha256))
            {
                return new ExtractCheck(count, $"the head {text} does not fit the links");
            }
        }

        return count == file.GetProperty("readingCount").GetInt64()
            ? new ExtractCheck(count, null) { SignalCount = signals }
            : new ExtractCheck(count, "the number of readings is another one than the file says");
    }

    private static string? Check(JsonElement one, Dictionary<(long Chain, long Position), string> hashes)
    {
        var reading = one.GetProperty("reading");
        Guid? supersededBy = reading.TryGetProperty("supersededBy", out var by) ? by.GetGuid() : null;
        var stored = ExtractFormat.ReadRecord(one.GetProperty("record"), supersededBy);
        if (!JsonNode.DeepEquals(JsonNode.Parse(ExtractFormat.Describe(stored)), JsonNode.Parse(reading.GetRawText())))
        {
            return "what is written for a person is not what its record says";
        }

        if (!one.TryGetProperty("link", out var link))
        {
            return "it has no link";
        }

        return CheckLink(link, RecordKey.Reading(stored.Sequence), ExtractFormat.HashOf(stored), "its record is", hashes)
            ?? (one.TryGetProperty("signals", out var signals) ? CheckSignals(signals, stored, hashes) : null);
    }

    private static string? CheckSignals(JsonElement signals, StoredReading stored, Dictionary<(long Chain, long Position), string> hashes)
    {
        var record = signals.GetProperty("record").GetBytesFromBase64();
        if (!JsonNode.DeepEquals(JsonNode.Parse(ExtractFormat.DescribeSignals(record)), JsonNode.Parse(signals.GetProperty("raised").GetRawText())))
        {
            return "what is written of its signals for a person is not what their record says";
        }

        return signals.TryGetProperty("link", out var link)
            ? CheckLink(link, RecordKey.Signals(stored.Sequence), RecordHash.OfSignals(stored.Entry.Line, stored.Sequence, record), "the record of its signals is", hashes)
            : "its signals have no link";
    }

    private static string? CheckLink(
        JsonElement link, RecordKey record, byte[] recordHash, string what, Dictionary<(long Chain, long Position), string> hashes)
    {
        var (chain, position) = (link.GetProperty("chain").GetInt64(), link.GetProperty("position").GetInt64());
        var previous = link.GetProperty("previousSha256").GetString()!;
        if (Convert.ToHexStringLower(recordHash) != link.GetProperty("recordSha256").GetString())
        {
            return what + " not what it was when its link was written";
        }

        var hash = Convert.ToHexStringLower(
            LinkHash.Of(Convert.FromHexString(previous), chain, position, record, recordHash));
        if (hash != link.GetProperty("sha256").GetString()
            || (hashes.TryGetValue((chain, position - 1), out var before) && before != previous))
        {
            return "its link does not follow from the one before it";
        }

        hashes[(chain, position)] = hash;
        return null;
    }
}

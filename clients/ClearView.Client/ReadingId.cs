using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;

using ClearView.V1;

using Google.Protobuf;

namespace ClearView.Client;

/// <summary>Makes identifiers of readings. The poster chooses the identifier, so that a post may be repeated.</summary>
public static class ReadingId
{
    // Separates these identifiers from any other hash of the same bytes; changing it changes every identifier.
    private static readonly byte[] Domain = Encoding.ASCII.GetBytes("clearview.v1.reading-id\n");

    /// <summary>A new identifier that sorts by time: UUID version 7 (RFC 9562, 5.7).</summary>
    /// <param name="clock">The clock; <see langword="null"/> takes the system's.</param>
    public static Guid New(TimeProvider? clock = null) => Guid.CreateVersion7((clock ?? TimeProvider.System).GetUtcNow());

    /// <summary>The identifier that belongs to a measurement and its method: UUID version 8 (RFC 9562, 5.8).</summary>
    /// <param name="measurement">The measurement.</param>
    /// <param name="method">The method.</param>
    /// <returns>The same identifier for the same content, wherever and whenever; another for any other content.</returns>
    /// <remarks>
    /// The first 128 bits of the SHA-256 of a fixed prefix and, each behind its length, the protobuf bytes of both messages,
    /// with the version and variant bits of RFC 9562 set. The messages hold no maps, so that their bytes are canonical.
    /// </remarks>
    public static Guid ForContent(Measurement measurement, Method method)
    {
        ArgumentNullException.ThrowIfNull(measurement);
        ArgumentNullException.ThrowIfNull(method);
        return Hash(measurement, method);
    }

    /// <summary>The identifier that belongs to a measurement and the specification that it is judged under.</summary>
    /// <param name="measurement">The measurement.</param>
    /// <param name="specification">The specification as it is named: version 0 is another name than that of the version found.</param>
    /// <returns>As <see cref="ForContent(Measurement, Method)"/>, with a method of no bytes, and the specification's name as a third message.</returns>
    public static Guid ForContent(Measurement measurement, SpecificationName specification)
    {
        ArgumentNullException.ThrowIfNull(measurement);
        ArgumentNullException.ThrowIfNull(specification);
        return Hash(measurement, new Method(), specification);
    }

    private static Guid Hash(params ReadOnlySpan<IMessage> messages)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(Domain);
        foreach (var message in messages)
        {
            Append(hash, message);
        }
        var bytes = hash.GetHashAndReset().AsSpan(0, 16);
        bytes[6] = (byte)((bytes[6] & 0x0F) | 0x80);
        bytes[8] = (byte)((bytes[8] & 0x3F) | 0x80);
        return new Guid(bytes, bigEndian: true);
    }

    private static void Append(IncrementalHash hash, IMessage message)
    {
        Span<byte> length = stackalloc byte[8];
        var bytes = message.ToByteArray();
        BinaryPrimitives.WriteInt64BigEndian(length, bytes.LongLength);
        hash.AppendData(length);
        hash.AppendData(bytes);
    }
}

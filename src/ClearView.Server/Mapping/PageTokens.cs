using System.Buffers.Binary;
using System.Buffers.Text;
using System.Security.Cryptography;

using ClearView.Records.Model;
using ClearView.V1;

using Google.Protobuf;

namespace ClearView.Server.Mapping;

/// <summary>Page tokens: a place in a list, bound to the filters and the order of the list.</summary>
/// <remarks>Layout: version (1 byte), time in 100 ns (8), identifier (16), start of the filters' SHA-256 (8), as base64url.</remarks>
internal static class PageTokens
{
    private const byte Version = 1;
    private const int TimeOffset = 1;
    private const int IdOffset = 9;
    private const int HashOffset = 25;
    private const int Length = 33;

    /// <summary>The token that continues the list of the request behind a reading.</summary>
    public static string Write(ReadingPosition position, ListReadingsRequest request)
    {
        Span<byte> token = stackalloc byte[Length];
        token[0] = Version;
        BinaryPrimitives.WriteInt64BigEndian(token[TimeOffset..], position.MeasuredAt.UtcTicks);
        position.Id.TryWriteBytes(token[IdOffset..HashOffset], bigEndian: true, out _);
        HashFilters(request, token[HashOffset..]);
        return Base64Url.EncodeToString(token);
    }

    /// <summary>Reads the token of a request.</summary>
    /// <param name="request">The request.</param>
    /// <param name="position">The place to go on from, where the token is valid.</param>
    /// <param name="problem">What is wrong, where it is not.</param>
    /// <returns>Whether the token is valid and belongs to the request.</returns>
    public static bool TryRead(ListReadingsRequest request, out ReadingPosition position, out string problem)
    {
        position = default;
        problem = "is not a token of this server; pass next_page_token on as it came.";
        Span<byte> token = stackalloc byte[Length];
        if (!Base64Url.IsValid(request.PageToken, out var decodedLength) || decodedLength != Length)
        {
            return false;
        }

        Base64Url.DecodeFromChars(request.PageToken, token);
        var ticks = BinaryPrimitives.ReadInt64BigEndian(token[TimeOffset..]);
        if (token[0] != Version || ticks < 0 || ticks > DateTimeOffset.MaxValue.UtcTicks)
        {
            return false;
        }

        Span<byte> hash = stackalloc byte[Length - HashOffset];
        HashFilters(request, hash);
        if (!hash.SequenceEqual(token[HashOffset..]))
        {
            problem = "belongs to other filters or another order; repeat the filters of the first page.";
            return false;
        }

        position = new ReadingPosition(
            new DateTimeOffset(ticks, TimeSpan.Zero), new Guid(token[IdOffset..HashOffset], bigEndian: true));
        return true;
    }

    // The page size and what a page shows may change from page to page; the list itself may not.
    private static void HashFilters(ListReadingsRequest request, Span<byte> destination)
    {
        var filters = request.Clone();
        filters.PageSize = 0;
        filters.PageToken = "";
        filters.OmitSpectra = false;
        SHA256.HashData(filters.ToByteArray()).AsSpan(0, destination.Length).CopyTo(destination);
    }
}

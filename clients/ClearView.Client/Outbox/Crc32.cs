namespace ClearView.Client.Outbox;

/// <summary>The cyclic redundancy check of IEEE 802.3, reflected polynomial 0xEDB88320.</summary>
internal static class Crc32
{
    private static readonly uint[] Table = [.. Enumerable.Range(0, 256).Select(i => Enumerable.Range(0, 8).Aggregate((uint)i, (c, _) => (c & 1) != 0 ? 0xEDB88320 ^ (c >> 1) : c >> 1))];

    /// <summary>The check of some bytes.</summary>
    public static uint Of(ReadOnlySpan<byte> bytes)
    {
        var crc = uint.MaxValue;
        foreach (var one in bytes)
        {
            crc = Table[(crc ^ one) & 0xFF] ^ (crc >> 8);
        }
        return ~crc;
    }
}

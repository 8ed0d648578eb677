namespace ClearView.EndToEnd.Tests.Hostile;

/// <summary>Damages bytes in the ways that a faulty sender, a bad line or an attacker would.</summary>
/// <param name="random">Says how; the same seed damages in the same way.</param>
internal sealed class ByteMutator(Random random)
{
    // Lengths and numbers that a varint can claim: the largest of 32 and 64 bits, and one that never ends.
    private static readonly byte[][] Varints =
    [
        [0xFF, 0xFF, 0xFF, 0xFF, 0x07],
        [0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0x01],
        [0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF],
    ];

    /// <summary>The bytes with one to four kinds of damage.</summary>
    public byte[] Mutate(byte[] bytes)
    {
        var damaged = bytes.ToList();
        for (var i = random.Next(1, 5); i > 0; i--)
        {
            MutateOnce(damaged);
        }

        return [.. damaged];
    }

    private void MutateOnce(List<byte> bytes)
    {
        var at = random.Next(bytes.Count + 1);
        var length = Math.Min(random.Next(1, 64), bytes.Count - at);
        switch (random.Next(7))
        {
            case 0 when at < bytes.Count:
                bytes[at] ^= (byte)(1 << random.Next(8));
                break;
            case 1 when at < bytes.Count:
                bytes[at] = (byte)random.Next(256);
                break;
            case 2:
                bytes.RemoveRange(at, length);
                break;
            case 3:
                bytes.InsertRange(random.Next(bytes.Count + 1), bytes.GetRange(at, length));
                break;
            case 4:
                bytes.RemoveRange(at, bytes.Count - at);
                break;
            case 5:
                bytes.InsertRange(at, Varints[random.Next(Varints.Length)]);
                break;
            default:
                var noise = new byte[random.Next(1, 64)];
                random.NextBytes(noise);
                bytes.InsertRange(at, noise);
                break;
        }
    }
}

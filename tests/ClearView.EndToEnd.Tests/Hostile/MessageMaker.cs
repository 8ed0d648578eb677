using System.Collections;

using Google.Protobuf;
using Google.Protobuf.Reflection;

namespace ClearView.EndToEnd.Tests.Hostile;

/// <summary>Makes messages of any type that are whole on the wire and absurd in what they say.</summary>
/// <param name="random">Says what; the same seed makes the same messages.</param>
internal sealed class MessageMaker(Random random)
{
    private const int Deepest = 6;
    private const int Longest = 2000;

    private static readonly double[] Numbers =
        [0, -0.0, 1, -1, 50, 100, 380, 780, 1e-320, 1e308, -1e308, double.NaN, double.PositiveInfinity, double.NegativeInfinity, double.Epsilon];

    private static readonly long[] WholeNumbers =
        [0, 1, -1, 5, 81, 401, int.MaxValue, int.MinValue, long.MaxValue, long.MinValue, 253402300800, -62135596801, 999_999_999, 1_000_000_000];

    private static readonly string[] Texts =
    [
        "", " ", "line 3", "haze", "astm", "D65/10", "=1+2", "@SUM(A1)", "../../etc/passwd", "'; DROP TABLE reading; --", "\0", "a\0b", "\u001b[31m",
        "\u202Etxt.exe", "e\u0301\u0327", "\U0001F4A9", "\uFFFF", "019cae1a-7d20-7c1e-9b1a-5b8f0a6f3c11", "00000000-0000-0000-0000-000000000000",
        new string('x', 300), new string('ü', 70_000), "{{7*7}}", "%s%n", "NaN",
    ];

    /// <summary>A message of a type.</summary>
    public IMessage Make(MessageDescriptor type, int depth = 0)
    {
        var message = type.Parser.ParseFrom(ByteString.Empty);
        foreach (var field in type.Fields.InDeclarationOrder())
        {
            if (random.NextDouble() < (depth < Deepest ? 0.6 : 0.0))
            {
                Fill(message, field, depth);
            }
        }

        return message;
    }

    private void Fill(IMessage message, FieldDescriptor field, int depth)
    {
        if (field.IsMap)
        {
            return;
        }

        if (field.IsRepeated)
        {
            var list = (IList)field.Accessor.GetValue(message);
            for (var i = CountOf(field, depth); i > 0; i--)
            {
                list.Add(Value(field, depth));
            }
        }
        else
        {
            field.Accessor.SetValue(message, Value(field, depth));
        }
    }

    private int CountOf(FieldDescriptor field, int depth) => random.Next(20) switch
    {
        0 when field.FieldType != FieldType.Message => Longest,
        0 when depth < 2 => 200,
        < 8 => 81,
        _ => random.Next(4),
    } / (field.FieldType == FieldType.Message && depth > 1 ? 20 : 1);

    private object Value(FieldDescriptor field, int depth) => field.FieldType switch
    {
        FieldType.Double => Numbers[random.Next(Numbers.Length)],
        FieldType.Float => (float)Numbers[random.Next(Numbers.Length)],
        FieldType.Int32 or FieldType.SInt32 or FieldType.SFixed32 => unchecked((int)Whole()),
        FieldType.UInt32 or FieldType.Fixed32 => unchecked((uint)Whole()),
        FieldType.Int64 or FieldType.SInt64 or FieldType.SFixed64 => Whole(),
        FieldType.UInt64 or FieldType.Fixed64 => unchecked((ulong)Whole()),
        FieldType.Bool => random.Next(2) == 0,
        FieldType.String => Texts[random.Next(Texts.Length)],
        FieldType.Bytes => ByteString.CopyFrom(Noise()),
        FieldType.Enum => random.Next(-1, field.EnumType.Values.Count + 2),
        FieldType.Message => Make(field.MessageType, depth + 1),
        _ => throw new InvalidOperationException($"The contract has a field of a type that was not thought of: {field.FieldType}."),
    };

    private long Whole() => WholeNumbers[random.Next(WholeNumbers.Length)];

    private byte[] Noise()
    {
        var noise = new byte[random.Next(200)];
        random.NextBytes(noise);
        return noise;
    }
}

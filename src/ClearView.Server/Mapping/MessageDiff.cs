using System.Collections;
using System.Globalization;

using ClearView.Contract.Series;
using ClearView.V1;

using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;

namespace ClearView.Server.Mapping;

/// <summary>Says field by field in what two messages of one type differ.</summary>
/// <remarks>Numbers are compared bit for bit, so that the differences are those of the serialised messages.</remarks>
internal static class MessageDiff
{
    private const int MaxTextLength = 60;

    /// <summary>Compares a stored message with a posted one.</summary>
    /// <param name="stored">The stored message.</param>
    /// <param name="posted">The posted message, of the same type.</param>
    /// <param name="path">Path of both, for example "measurement".</param>
    /// <returns>One entry per field that differs; empty when the messages serialise alike.</returns>
    public static List<FieldViolation> Compare(IMessage stored, IMessage posted, string path)
    {
        List<FieldViolation> differences = [];
        CompareMessages(stored, posted, path, differences);
        if (differences.Count == 0 && !stored.ToByteString().Equals(posted.ToByteString()))
        {
            Add(differences, path, "fields that this version does not know differ.");
        }

        return differences;
    }

    private static void CompareMessages(IMessage stored, IMessage posted, string path, List<FieldViolation> differences)
    {
        if (stored is Timestamp)
        {
            CompareValues(stored, posted, path, differences);
            return;
        }

        foreach (var field in stored.Descriptor.Fields.InDeclarationOrder())
        {
            var fieldPath = $"{path}.{field.Name}";
            if (field.IsRepeated)
            {
                CompareLists((IList)field.Accessor.GetValue(stored), (IList)field.Accessor.GetValue(posted), field, fieldPath, differences);
                continue;
            }

            var storedValue = ValueOrNull(stored, field);
            var postedValue = ValueOrNull(posted, field);
            if (storedValue is IMessage storedMessage && postedValue is IMessage postedMessage)
            {
                CompareMessages(storedMessage, postedMessage, fieldPath, differences);
            }
            else
            {
                CompareValues(Shown(storedValue, field), Shown(postedValue, field), fieldPath, differences);
            }
        }
    }

    private static void CompareLists(IList stored, IList posted, FieldDescriptor field, string path, List<FieldViolation> differences)
    {
        if (stored.Count != posted.Count)
        {
            Add(differences, path, $"stored {stored.Count} values, posted {posted.Count}.");
            return;
        }

        var different = Enumerable.Range(0, stored.Count).Where(i => !AreSame(stored[i], posted[i])).ToList();
        if (different.Count == 0)
        {
            return;
        }

        var first = different[0];
        var others = different.Count == 1 ? "" : $"; {different.Count} of {stored.Count} values differ";
        Add(
            differences,
            string.Create(CultureInfo.InvariantCulture, $"{path}[{first}]"),
            $"stored {Format(Shown(stored[first], field))}, posted {Format(Shown(posted[first], field))}{others}.");
    }

    private static void CompareValues(object? stored, object? posted, string path, List<FieldViolation> differences)
    {
        if (!AreSame(stored, posted))
        {
            Add(differences, path, $"stored {Format(stored)}, posted {Format(posted)}.");
        }
    }

    private static object? ValueOrNull(IMessage message, FieldDescriptor field) =>
        field.HasPresence && !field.Accessor.HasValue(message) ? null : field.Accessor.GetValue(message);

    // Enumerators by the names of the contract, where they have one.
    private static object? Shown(object? value, FieldDescriptor field)
    {
        if (field.FieldType != FieldType.Enum || value is null)
        {
            return value;
        }

        var number = Convert.ToInt32(value, CultureInfo.InvariantCulture);
        return field.EnumType.FindValueByNumber(number) is { } known ? new EnumName(known.Name) : number;
    }

    private static bool AreSame(object? stored, object? posted) => (stored, posted) switch
    {
        (double a, double b) => BitConverter.DoubleToInt64Bits(a) == BitConverter.DoubleToInt64Bits(b),
        (float a, float b) => BitConverter.SingleToInt32Bits(a) == BitConverter.SingleToInt32Bits(b),
        _ => Equals(stored, posted),
    };

    private static string Format(object? value) => value switch
    {
        null => "nothing",
        string text => text.Length > MaxTextLength ? $"\"{text[..MaxTextLength]}…\"" : $"\"{text}\"",
        bool flag => flag ? "true" : "false",
        Timestamp time => Format(time),
        double number => Format(number),
        IMessage message => $"a {message.Descriptor.Name}",
        IFormattable formattable => formattable.ToString(null, CultureInfo.InvariantCulture),
        _ => value.ToString() ?? "",
    };

    private static string Format(double number) =>
        double.IsNaN(number)
            ? $"NaN (0x{BitConverter.DoubleToUInt64Bits(number):X16})"
            : number.ToString("R", CultureInfo.InvariantCulture);

    // Not every message holds a valid time; the plain figures always can be shown.
    private static string Format(Timestamp time) =>
        TimestampRules.IsValid(time)
            ? time.ToDiagnosticString().Trim('"')
            : string.Create(CultureInfo.InvariantCulture, $"{time.Seconds} s and {time.Nanos} ns");

    private static void Add(List<FieldViolation> differences, string path, string description) =>
        differences.Add(new FieldViolation { Field = path, Description = description });

    private sealed record EnumName(string Name)
    {
        public override string ToString() => Name;
    }
}

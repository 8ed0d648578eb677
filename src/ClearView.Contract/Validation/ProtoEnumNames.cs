using System.Collections.Immutable;
using System.Reflection;

using Google.Protobuf.Reflection;

namespace ClearView.Contract.Validation;

/// <summary>Names of enumeration values as the .proto files write them.</summary>
public static class ProtoEnumNames
{
    /// <summary>Every name but UNSPECIFIED, in order.</summary>
    /// <typeparam name="TEnum">A generated enumeration.</typeparam>
    public static ImmutableArray<string> Of<TEnum>()
        where TEnum : struct, Enum => [.. Enum.GetValues<TEnum>().Where(value => Convert.ToInt32(value, null) != 0).Select(NameOf)];

    /// <summary>Name of one value.</summary>
    /// <typeparam name="TEnum">A generated enumeration.</typeparam>
    /// <param name="value">The value.</param>
    public static string NameOf<TEnum>(TEnum value)
        where TEnum : struct, Enum =>
        typeof(TEnum).GetField(value.ToString())?.GetCustomAttribute<OriginalNameAttribute>()?.Name ?? value.ToString();
}

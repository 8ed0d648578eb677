using ClearView.V1;

namespace ClearView.Contract.Decisions;

/// <summary>What the reference of a limit is called.</summary>
internal static class LimitNames
{
    public static string Reference(SpecificationLimit limit) => limit.ReferenceName switch
    {
        null => "given by hand",
        { Version: 0 } name => name.Name,
        { } name => FormattableString.Invariant($"{name.Name} (version {name.Version})"),
    };
}

namespace ClearView.Records.Model;

/// <summary>Kinds of documents that are kept under names, in versions.</summary>
public enum VersionedKind
{
    /// <summary>Methods.</summary>
    Method = 1,

    /// <summary>Specifications of products.</summary>
    Specification = 2,

    /// <summary>References of colour differences.</summary>
    Reference = 3,

    /// <summary>Control charts.</summary>
    ControlChart = 4,

    /// <summary>Keys of callers.</summary>
    Key = 5,
}

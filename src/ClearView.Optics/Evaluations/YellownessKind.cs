namespace ClearView.Optics.Evaluations;

/// <summary>Which yellowness index.</summary>
public enum YellownessKind
{
    /// <summary>ASTM E313 under the method's colour pair.</summary>
    AstmE313 = 1,

    /// <summary>The withdrawn ASTM D1925, illuminant C and 2° observer.</summary>
    AstmD1925 = 2,

    /// <summary>ISO 17223 under the method's colour pair.</summary>
    Iso17223 = 3,
}

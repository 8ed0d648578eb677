namespace ClearView.Records.Model;

/// <summary>Why a correction is not taken.</summary>
public enum CorrectionFault
{
    /// <summary>The reading that is to be corrected is not stored.</summary>
    NotFound,

    /// <summary>Another reading has taken its place already.</summary>
    Superseded,

    /// <summary>It was retired with its month: what it says can no longer be looked at here.</summary>
    Retired,
}

namespace ClearView.Console.Judging;

/// <summary>What a limit says about a value.</summary>
internal enum Judgement
{
    /// <summary>The limit is kept.</summary>
    Pass,

    /// <summary>The value is not there, so that nothing can be said.</summary>
    Open,

    /// <summary>The limit is not kept.</summary>
    Fail,
}

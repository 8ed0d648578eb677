namespace ClearView.Contract.ControlCharts;

/// <summary>What the limits of a chart rest on.</summary>
internal static class LimitWords
{
    /// <summary>The limits, in words.</summary>
    /// <param name="individuals">Whether each reading is a point of its own.</param>
    public static string Of(bool individuals) => individuals ? "limits from the moving range" : "limits from the spread within subgroups";
}

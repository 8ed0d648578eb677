using ClearView.Quality.ControlCharts;

namespace ClearView.Contract.ControlCharts;

/// <summary>What it means for a chart that readings depend on those before them.</summary>
internal static class DependenceWords
{
    /// <summary>The caution, in words; empty where there is no sign of dependence.</summary>
    /// <param name="check">The check of the readings.</param>
    /// <param name="individuals">Whether each reading is a point of its own.</param>
    public static string Of(AutocorrelationCheck check, bool individuals)
    {
        if (check.Caution is null)
        {
            return "";
        }

        string limits = individuals ? "limits from the moving range" : "limits from the spread within subgroups";
        if (!check.IsAtFirstLag)
        {
            return FormattableString.Invariant(
                $"readings depend on earlier ones, though not on the one just before (Ljung-Box over {check.Lags} lags, {check.PValueInWords}): {limits} may be too narrow or too wide");
        }

        bool close = check.FirstLag > 0;
        return FormattableString.Invariant(
            $"readings depend on those before them (correlation with the one before {check.FirstLag:0.00}): {limits} are too {(close ? "narrow" : "wide")}, and signals {(close ? "more" : "less")} frequent than for independent readings");
    }
}

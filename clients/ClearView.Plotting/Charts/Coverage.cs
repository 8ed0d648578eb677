using System.Globalization;

using ClearView.V1;

namespace ClearView.Plotting.Charts;

/// <summary>The coverage that expanded uncertainties are drawn with.</summary>
/// <param name="Factor">Coverage factor k, a number without unit.</param>
/// <param name="Percent">Coverage probability, %; <see langword="null"/> where it is not stated.</param>
internal sealed record Coverage(double Factor, double? Percent)
{
    /// <summary>In words, for example "U, k = 2.0, 95 %".</summary>
    public string Label => Percent is { } percent
        ? string.Create(CultureInfo.InvariantCulture, $"U, k = {Factor:0.0}, {percent:0.##} %")
        : "standard uncertainty u (k = 1)";

    /// <summary>That of the first of the measurands that has an uncertainty, else of any; k = 1 where none has.</summary>
    public static Coverage Of(Evaluation evaluation, params string[] preferred)
    {
        MeasuredValue[] uncertain = [.. evaluation.Values.Where(value => value.Uncertainty is { CoverageFactor: > 0 })];
        MeasuredValue? chosen = preferred
            .Select(id => uncertain.FirstOrDefault(value => value.Measurand == id))
            .Concat(uncertain)
            .FirstOrDefault(value => value is not null);
        return chosen is null ? new Coverage(1, null) : new Coverage(chosen.Uncertainty.CoverageFactor, chosen.Uncertainty.CoveragePercent);
    }

    /// <summary>That of several values: k as a range where it differs.</summary>
    public static string LabelOf(IEnumerable<Uncertainty> uncertainties)
    {
        Uncertainty[] all = [.. uncertainties];
        string[] factors = [.. new[] { all.Min(u => u.CoverageFactor), all.Max(u => u.CoverageFactor) }
            .Select(k => k.ToString("0.0", CultureInfo.InvariantCulture)).Distinct()];
        string[] percents = [.. all.Select(u => u.CoveragePercent).Distinct().Order().Select(p => p.ToString("0.##", CultureInfo.InvariantCulture))];
        return $"U, k = {string.Join(" to ", factors)}, {string.Join(" or ", percents)} %";
    }
}

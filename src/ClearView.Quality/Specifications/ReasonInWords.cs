using System.Globalization;

using ClearView.Quality.Descriptive;

namespace ClearView.Quality.Specifications;

/// <summary>Says why a limit is met or not: which limit, by how much, in units and in uncertainties.</summary>
internal static class ReasonInWords
{
    /// <summary>There is no value.</summary>
    public static string Missing(SpecificationLimit limit) =>
        limit.Reference is { } reference
            ? $"{MeasurandInWords.Name(limit.Measurand)} against reference {reference.Name} was not measured"
            : $"{MeasurandInWords.Name(limit.Measurand)} was not measured";

    /// <summary>A value against its nearest limit.</summary>
    public static string Of(MeasuredQuantity value, SpecificationLimit limit, DecisionRule rule, Verdict verdict)
    {
        bool nearestIsUpper = limit.Lower is null || limit.Upper - value.Value < value.Value - limit.Lower;
        double bound = (nearestIsUpper ? limit.Upper : limit.Lower)!.Value;
        double distance = Math.Abs(value.Value - bound);
        bool above = value.Value > bound;
        int decimals = Decimals(value.ExpandedUncertainty, distance);
        string unit = limit.Measurand.Unit switch { "" => "", "°" => "°", string other => $" {other}" };
        string Show(double number) => number.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture) + unit;
        string place = distance == 0 ? "on" : $"{Show(distance)} {(above ? "above" : "below")}";
        string sentence = $"{MeasurandInWords.Name(limit.Measurand)} {Show(value.Value)} is {place} its {(nearestIsUpper ? "upper" : "lower")} limit {Show(bound)}";
        if (value.ExpandedUncertainty is > 0 and { } expanded)
        {
            sentence += string.Create(CultureInfo.InvariantCulture, $", {distance / expanded:0.0} times its expanded uncertainty");
        }

        return verdict switch
        {
            Verdict.NotDecided => $"{sentence}; its uncertainty is unknown, which the rule ({rule}) needs",
            Verdict.NeitherProven => $"{sentence}: within the guard band, neither conformity nor non-conformity is proven",
            _ => sentence,
        };
    }

    // Two significant digits of U (JCGM 100, 7.2.6), two decimals where U is unknown; more where the distance would read 0.
    private static int Decimals(double? expanded, double distance)
    {
        int decimals = expanded is > 0 and < double.PositiveInfinity ? 1 - (int)Math.Floor(Math.Log10(expanded.Value)) : 2;
        return Math.Clamp(distance > 0 ? Math.Max(decimals, (int)Math.Ceiling(-Math.Log10(distance))) : decimals, 0, 6);
    }
}

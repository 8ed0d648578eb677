using ClearView.Contract.Validation;

namespace ClearView.Contract.Studies;

/// <summary>Reads levels and risks, which travel in percent with 0 for a default.</summary>
internal static class PercentRules
{
    public const double DefaultConfidence = 95;
    public const double DefaultPower = 80;

    /// <summary>A confidence or a power: above 50 and below 100 %.</summary>
    /// <returns>The fraction; that of the default where the value is at fault.</returns>
    public static double ReadLevel(this Violations violations, string field, double percent, double standard) =>
        violations.ReadBetween(field, percent, 50, 100, standard);

    /// <summary>A risk: above 0 and below 50 %.</summary>
    /// <returns>The fraction; that of the default where the value is at fault.</returns>
    public static double ReadRisk(this Violations violations, string field, double percent, double standard) =>
        violations.ReadBetween(field, percent, 0, 50, standard);

    private static double ReadBetween(this Violations violations, string field, double percent, double above, double below, double standard)
    {
        if (percent == 0)
        {
            return standard / 100;
        }

        if (percent > above && percent < below)
        {
            return percent / 100;
        }

        violations.Add(field, $"was {percent}; expected above {above} and below {below} %, or 0 for {standard} %.");
        return standard / 100;
    }
}

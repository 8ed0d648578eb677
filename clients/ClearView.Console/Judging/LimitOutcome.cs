using ClearView.Console.Rendering;
using ClearView.V1;

namespace ClearView.Console.Judging;

/// <summary>What one limit says about one specimen.</summary>
/// <param name="Limit">The limit.</param>
/// <param name="Value">The value as measured; <see langword="null"/> where the evaluation has none.</param>
/// <param name="Judgement">What it says.</param>
internal sealed record LimitOutcome(Limit Limit, MeasuredValue? Value, Judgement Judgement)
{
    /// <summary>The reason, in words, with as many digits as it takes to see it.</summary>
    public string Reason
    {
        get
        {
            var unit = Limit.Measurand.Unit.Length > 0 ? $" {Limit.Measurand.Unit}" : "";
            if (Value is null)
            {
                return $"{Limit.Measurand.Name} is not among the results: nothing to judge";
            }
            var relation = (Judgement, Limit.IsUpper) switch
            {
                (Judgement.Fail, true) => "is above",
                (Judgement.Fail, false) => "is below",
                (_, true) => "is not above",
                _ => "is not below",
            };
            return $"{Limit.Measurand.Name} {NumberText.Apart(Value, Limit.Value)}{unit} {relation} {Limit.ValueText}{unit}";
        }
    }
}

using ClearView.V1;

using Spectre.Console;

namespace ClearView.Console.Rendering.Decisions;

/// <summary>How many specimens, and plans for acceptance by variables.</summary>
internal static class SamplingScreen
{
    private const int BarWidth = 30;
    private const int MostPoints = 12;

    /// <summary>Writes it.</summary>
    public static void Write(Screen screen, PlanSamplingResponse response)
    {
        screen.Line(Markup.Escape(response.Conclusion));
        if (response.AcceptancePlan is { } plan)
        {
            WritePlan(screen, plan);
        }
    }

    private static void WritePlan(Screen screen, AcceptancePlan plan)
    {
        screen.Line();
        MethodPanel.WriteRows(screen,
        [
            ("Plan", $"n = {NumberText.Plain(plan.SpecimenCount)}, k = {NumberText.Fixed(plan.AcceptabilityConstant, 3)}: accept where (limit − mean)/s is k or more"),
            ("Producer", $"a lot with {NumberText.Plain(plan.Request.AcceptableQualityPercent)} % beyond the limit is refused with {NumberText.Fixed(plan.ProducersRiskPercent, 2)} % "
                + $"(asked: {NumberText.Plain(plan.Request.ProducersRiskPercent)} % at most)"),
            ("Consumer", $"a lot with {NumberText.Plain(plan.Request.RejectableQualityPercent)} % beyond the limit is passed with {NumberText.Fixed(plan.ConsumersRiskPercent, 2)} % "
                + $"(asked: {NumberText.Plain(plan.Request.ConsumersRiskPercent)} % at most)"),
        ]);
        var table = new DataTable().Numbers("Beyond the limit", "Accepted").Words("Operating characteristic");
        var step = Math.Max(1, (int)Math.Ceiling(plan.Curve.Count / (double)MostPoints));
        foreach (var point in plan.Curve.Where((_, index) => index % step == 0))
        {
            table.Row(
                $"{NumberText.Fixed(point.ShareBeyondPercent, 2)} %",
                DecisionText.Share(point.AcceptanceFraction),
                BarText.Of(point.AcceptanceFraction, BarWidth));
        }
        table.Write(screen);
    }
}

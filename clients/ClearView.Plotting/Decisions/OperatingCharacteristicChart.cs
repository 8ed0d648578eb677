using System.Collections.Immutable;
using System.Globalization;

using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;
using ClearView.Plotting.Rendering;
using ClearView.V1;

namespace ClearView.Plotting.Decisions;

/// <summary>The operating characteristic curve of a plan for acceptance by variables, with the risks of producer and consumer.</summary>
public static class OperatingCharacteristicChart
{
    private const float PanelPt = 340;
    private const double Settled = 0.01;
    private const double RoomRight = 1.35;

    private static readonly SeriesLook CurveLook = new(LineKind.Solid, MarkKind.None, Ink.Blue) { LineWidth = 2.4 };
    private static readonly SeriesLook ProducerLook = new(LineKind.None, MarkKind.FilledTriangle, Ink.Green) { MarkSize = 11 };
    private static readonly SeriesLook ConsumerLook = new(LineKind.None, MarkKind.OpenSquare, Ink.Vermilion) { MarkSize = 10 };
    private static readonly SeriesLook GuideLook = new(LineKind.Dotted, MarkKind.None, Ink.Grey) { LineWidth = 1.2 };

    /// <summary>Decides what the chart shows.</summary>
    /// <param name="plan">The plan with its curve.</param>
    /// <exception cref="ChartRefusedException">The plan has no request or no curve.</exception>
    public static ChartModel Build(AcceptancePlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        if (plan.Request is not { } request || plan.Curve.Count < 2)
        {
            throw new ChartRefusedException("The plan lacks its curve, or the request it answers.");
        }

        double end = plan.Curve.FirstOrDefault(point => point.AcceptanceFraction < Settled)?.ShareBeyondPercent ?? plan.Curve.Max(point => point.ShareBeyondPercent);
        double right = Math.Max(end, RoomRight * request.RejectableQualityPercent);
        ChartPoint producer = new(request.AcceptableQualityPercent, 100 - plan.ProducersRiskPercent);
        ChartPoint consumer = new(request.RejectableQualityPercent, plan.ConsumersRiskPercent);
        var chart = new ChartModel
        {
            Title = "Operating characteristic of an acceptance plan",
            Subtitle = $"n = {plan.SpecimenCount} specimens, k = {plan.AcceptabilityConstant.ToString("0.000", CultureInfo.InvariantCulture)}: accepted where (limit − mean)/s is k or more",
            Panels =
            [
                new PanelModel
                {
                    X = new AxisModel("Share of the lot beyond the limit (%)", 0, right),
                    Y = new AxisModel("Probability of acceptance (%)", 0, 106),
                    Series =
                    [
                        new SeriesModel
                        {
                            Label = "probability of acceptance",
                            Look = CurveLook,
                            Points = [.. plan.Curve.Where(point => point.ShareBeyondPercent <= right).Select(point => new ChartPoint(point.ShareBeyondPercent, 100 * point.AcceptanceFraction))],
                        },
                        Guides(producer, consumer),
                        new SeriesModel { Label = "producer's point", Look = ProducerLook, Points = [producer] },
                        new SeriesModel { Label = "consumer's point", Look = ConsumerLook, Points = [consumer] },
                    ],
                    Annotations =
                    [
                        Label(producer, $"{Wording.Number(producer.X)} % beyond: refused with {Risk(plan.ProducersRiskPercent)} % (producer's risk)"),
                        Label(consumer, $"{Wording.Number(consumer.X)} % beyond: accepted with {Risk(plan.ConsumersRiskPercent)} % (consumer's risk)"),
                    ],
                },
            ],
            Footer =
            [
                $"Asked: producer's risk {Wording.Number(request.ProducersRiskPercent)} % at {Wording.Number(request.AcceptableQualityPercent)} %, "
                    + $"consumer's risk {Wording.Number(request.ConsumersRiskPercent)} % at {Wording.Number(request.RejectableQualityPercent)} %. One limit, standard deviation unknown, values normally distributed.",
            ],
        };
        return chart with { HeightPt = MathF.Ceiling(PanelPt + ChartPainter.RoomOutsidePanels(chart)) };
    }

    private static string Risk(double percent) => percent.ToString("0.0#", CultureInfo.InvariantCulture);

    private static AnnotationModel Label(ChartPoint at, string text) => new(at.X, at.Y, text, AnnotationAnchor.Right) { Loose = true };

    /// <summary>From each point to both axes.</summary>
    private static SeriesModel Guides(params ChartPoint[] points) => new()
    {
        Label = "guides",
        Look = GuideLook,
        InLegend = false,
        Points = [.. points.SelectMany(point => ImmutableArray.Create(new(0, point.Y), point, new(point.X, 0), new(double.NaN, double.NaN)))],
    };
}

using ClearView.Client;
using ClearView.Console.Demo.Scenario;
using ClearView.Optics.Evaluations;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

using Method = ClearView.V1.Method;

namespace ClearView.Console.Demo;

/// <summary>What the invented plant has agreed: methods, specifications, a control chart, questions to the stored readings.</summary>
internal static class DemoDecisions
{
    /// <summary>Name of the film's specification.</summary>
    public const string FilmSpecification = "pe-film-50-clear";

    /// <summary>Name of the control chart.</summary>
    public const string HazeChart = "line-2-haze";

    /// <summary>Rolls that the limits of the control chart are taken from.</summary>
    public const int BaselineRolls = 5;

    private const string HouseMethod = "house";
    private const string BarrierMethod = "house-barrier";
    private const string BottleSpecification = "pet-bottle-amber";
    private const int PanelSpecimens = 5;
    private const int ReadingsAcross = 8;
    private const string By = "E. Marsh";

    /// <summary>Stores the methods and specifications that readings are posted under.</summary>
    public static async Task<NamedSpecification> PrepareAsync(ClearViewClient client, Method method, double barrierLimitPercent, CancellationToken cancellation)
    {
        await client.StoreMethodAsync(HouseMethod, "what the lab measures by, with its uncertainty sources", method, By, cancellation);
        var barrier = method.Clone();
        barrier.LightBarrierLimitPercent = barrierLimitPercent;
        await client.StoreMethodAsync(BarrierMethod, "the same, with the light-barrier screen", barrier, By, cancellation);
        await client.StoreSpecificationAsync(BottleSpecification, "amber bottles", Bottle(barrierLimitPercent), By, cancellation);
        return (await client.StoreSpecificationAsync(FilmSpecification, "clear film of line 2", Film(), By, cancellation)).Specification;
    }

    /// <summary>Stores the control chart, with limits from the first rolls.</summary>
    public static Task StoreChartAsync(ClearViewClient client, DateTimeOffset shiftStart, CancellationToken cancellation) =>
        client.StoreControlChartAsync(
            HazeChart,
            "haze of line 2, one pass across the web at a time",
            new ControlChart
            {
                Series = new SeriesFilter { Measurand = Measurands.Haze.Id, Line = FilmShift.Line, Product = FilmShift.Product },
                Kind = ControlChartKind.AveragesWithStandardDeviation,
                Subgrouping = new Subgrouping { ConsecutiveCount = ReadingsAcross },
                Phases =
                {
                    new ControlPhase
                    {
                        Name = "early shift",
                        Baseline = new MeasuredSpan
                        {
                            MeasuredFrom = Timestamp.FromDateTimeOffset(shiftStart),
                            MeasuredBefore = Timestamp.FromDateTimeOffset(shiftStart + (FilmShift.RollInterval * BaselineRolls)),
                        },
                    },
                },
            },
            By,
            cancellation);

    /// <summary>Capability of the film's haze over the shift.</summary>
    public static Task<Capability> CapabilityAsync(ClearViewClient client, CancellationToken cancellation) =>
        client.EstimateCapabilityAsync(
            new EstimateCapabilityRequest
            {
                Stored = new StoredSeries { Filter = new SeriesFilter { Measurand = Measurands.Haze.Id, Line = FilmShift.Line } },
                SpecificationName = new SpecificationName { Name = FilmSpecification },
            },
            cancellation);

    /// <summary>Map of the contaminated roll.</summary>
    public static Task<RollMap> RollMapAsync(ClearViewClient client, CancellationToken cancellation) =>
        client.MapRollAsync(
            new MapRollRequest
            {
                Stored = new StoredSeries
                {
                    Filter = new SeriesFilter { Measurand = Measurands.Haze.Id, Line = FilmShift.Line, Roll = FilmShift.RollName(FilmShift.BadRollIndex) },
                },
                SpecificationName = new SpecificationName { Name = FilmSpecification },
            },
            cancellation);

    /// <summary>The resin lots compared in haze and yellowness.</summary>
    public static Task<CompareLotsResponse> LotsAsync(ClearViewClient client, CancellationToken cancellation) =>
        client.CompareLotsAsync(
            new CompareLotsRequest
            {
                Stored = new StoredLots
                {
                    Lots = { ResinTrial.Lots },
                    Measurands = { Measurands.Haze.Id, Measurands.YellownessIndexE313.Id },
                    Product = ResinTrial.Product,
                },
                Options = new LotComparisonOptions
                {
                    Margins =
                    {
                        new MeasurandMargin { Measurand = Measurands.Haze.Id, Margin = 0.3 },
                        new MeasurandMargin { Measurand = Measurands.YellownessIndexE313.Id, Margin = 0.3 },
                    },
                },
            },
            cancellation);

    /// <summary>Panels of amber bottles judged under their specification.</summary>
    public static Task<JudgeSpecimensResponse> BottleAsync(ClearViewClient client, DateTimeOffset shiftStart, CancellationToken cancellation) =>
        client.JudgeSpecimensAsync(
            BottleSet.GenerateAmberPanels(DemoRun.Seed, shiftStart, PanelSpecimens), new SpecificationName { Name = BottleSpecification }, cancellation);

    private static Specification Film() => new()
    {
        Product = FilmShift.Product,
        ProductKind = ProductKind.Film,
        MethodName = new MethodName { Name = HouseMethod },
        RequiredSpecimenCount = 1,
        DecisionRule = new DecisionRule { GuardBand = new GuardBand { Factor = 1 } },
        Limits =
        {
            new SpecificationLimit { Measurand = Measurands.Haze.Id, Upper = 3 },
            new SpecificationLimit { Measurand = Measurands.LuminousTransmittance.Id, Lower = 89 },
            new SpecificationLimit { Measurand = Measurands.YellownessIndexE313.Id, Upper = 1.5 },
        },
    };

    private static Specification Bottle(double barrierLimitPercent) => new()
    {
        Product = BottleSet.AmberProduct,
        ProductKind = ProductKind.Bottle,
        MethodName = new MethodName { Name = BarrierMethod },
        RequiredSpecimenCount = PanelSpecimens,
        DecisionRule = new DecisionRule { GuardBand = new GuardBand { Factor = 1 } },
        Limits =
        {
            new SpecificationLimit { Measurand = Measurands.LightBarrierMaximum.Id, Upper = barrierLimitPercent },
            new SpecificationLimit { Measurand = Measurands.Haze.Id, Upper = 4 },
            new SpecificationLimit { Measurand = Measurands.LuminousTransmittance.Id, Lower = 20, Upper = 60 },
        },
    };
}

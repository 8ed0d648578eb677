using ClearView.Plotting.Charts;
using ClearView.V1;

namespace ClearView.Plotting.Tests;

/// <summary>Bottle walls whose transmittance rises to the red, 250-780 nm at 10 nm.</summary>
internal static class SampleBottles
{
    private const double SteepnessNm = 18;

    public static ChartReading Wall(
        double edgeNm = 500,
        string specimen = "B1",
        string product = "amber bottle",
        WallRegion region = WallRegion.Panel,
        double minutes = 0,
        double? limitPercent = 10,
        bool uncertain = false,
        double startNm = 250)
    {
        Method method = uncertain ? SampleUncertainty.Method() : SampleReadings.Method();
        if (limitPercent is { } limit)
        {
            method.LightBarrierLimitPercent = limit;
        }

        int count = (int)((780 - startNm) / 10) + 1;
        var scans = new NormalisedScans
        {
            Grid = new WavelengthGrid { Regular = new RegularGrid { StartNm = startNm, StepNm = 10, Count = (uint)count } },
            TransmittanceUnit = TransmittanceUnit.Percent,
        };
        double[] total = [.. Enumerable.Range(0, count).Select(i => 88 / (1 + Math.Exp((edgeNm - startNm - (10 * i)) / SteepnessNm)))];
        scans.TotalTransmittance.Add(total);
        scans.DiffuseTransmittance.Add(total.Select(value => 0.05 * value));
        return SampleReadings.Evaluate(
            new Scans { Normalised = scans },
            new Identification { Line = "Line 1", Product = product, Roll = "", Specimen = specimen, Wall = new WallPosition { Region = region } },
            minutes,
            method);
    }

    /// <summary>Every region of three bottles of each of two products.</summary>
    public static IReadOnlyList<ChartReading> Set() =>
    [
        .. Enumerable.Range(0, 24).Select(i => Wall(
            edgeNm: (i < 12 ? 500 : 380) + (4 * (i % 4)) + (i % 3),
            specimen: $"B{(i / 4) + 1}",
            product: i < 12 ? "amber bottle" : "clear bottle",
            region: (WallRegion)((i % 4) + 1),
            minutes: i)),
    ];
}

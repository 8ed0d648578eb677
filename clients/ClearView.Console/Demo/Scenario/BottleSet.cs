using System.Collections.Immutable;
using System.Globalization;

using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

using MathNet.Numerics.Distributions;

namespace ClearView.Console.Demo.Scenario;

/// <summary>An invented set of bottles, clear and amber, each measured at four places of its wall.</summary>
/// <remarks>Pure and seeded: the same seed and start give the same measurements.</remarks>
public static class BottleSet
{
    /// <summary>Bottles of the set: the first half clear, the second half amber.</summary>
    public const int BottleCount = 12;

    /// <summary>Readings of each bottle, one for each region of the wall.</summary>
    public const int ReadingsPerBottle = 4;

    /// <summary>The clear product.</summary>
    public const string ClearProduct = "PET bottle 0.5 L clear";

    /// <summary>The amber product.</summary>
    public const string AmberProduct = "PET bottle 0.5 L amber";

    /// <summary>Every so many bottles one comes as raw sphere readings T1 to T4.</summary>
    private const int RawEvery = 3;

    private static readonly TimeSpan ReadingInterval = TimeSpan.FromMinutes(2);
    private static readonly ScanGrid Grid = new(StartNm: 360, StepNm: 10, Count: 43);

    // The light-barrier screen asks for 290-450 nm.
    private static readonly ScanGrid UltravioletGrid = new(StartNm: 290, StepNm: 10, Count: 50);

    private static readonly ImmutableArray<(WallRegion Region, double ThicknessUm, double HeightMm, double HazePercent)> Places =
    [
        (WallRegion.Panel, 310, 110, 1.6),
        (WallRegion.Shoulder, 390, 165, 2.4),
        (WallRegion.LabelArea, 330, 75, 1.8),
        (WallRegion.Base, 920, 2, 7.5),
    ];

    /// <summary>Invents the set.</summary>
    /// <param name="seed">Seed of the noise.</param>
    /// <param name="startUtc">Time of the first reading.</param>
    /// <returns>The measurements in the order of their times, 360-780 nm at 10 nm; every third bottle as raw sphere readings.</returns>
    public static ImmutableArray<Measurement> Generate(int seed, DateTimeOffset startUtc)
    {
        var noise = new Random(seed);
        var set = ImmutableArray.CreateBuilder<Measurement>(BottleCount * ReadingsPerBottle);
        for (int bottle = 0; bottle < BottleCount; bottle++)
        {
            double material = Normal.Sample(noise, 1, 0.03);
            for (int place = 0; place < Places.Length; place++)
            {
                DateTimeOffset at = startUtc + (ReadingInterval * set.Count);
                set.Add(Measure(bottle, place, material, at, noise, Grid));
            }
        }

        return set.MoveToImmutable();
    }

    /// <summary>Invents scans into the ultraviolet: the panel of one clear and of one amber bottle.</summary>
    /// <param name="seed">Seed of the noise.</param>
    /// <param name="startUtc">Time of the first reading.</param>
    /// <returns>The measurements, 290-780 nm at 10 nm.</returns>
    public static ImmutableArray<Measurement> GenerateUltraviolet(int seed, DateTimeOffset startUtc)
    {
        var noise = new Random(seed);
        return
        [
            Measure(bottle: 0, place: 0, material: 1, startUtc, noise, UltravioletGrid),
            Measure(bottle: BottleCount / 2, place: 0, material: 1, startUtc + ReadingInterval, noise, UltravioletGrid),
        ];
    }

    /// <summary>Invents scans into the ultraviolet of the panels of several amber bottles.</summary>
    /// <param name="seed">Seed of the noise.</param>
    /// <param name="startUtc">Time of the first reading.</param>
    /// <param name="count">Number of bottles, 1 to half of <see cref="BottleCount"/>.</param>
    /// <returns>The measurements, 290-780 nm at 10 nm.</returns>
    public static ImmutableArray<Measurement> GenerateAmberPanels(int seed, DateTimeOffset startUtc, int count)
    {
        var noise = new Random(seed);
        return
        [
            .. Enumerable.Range(0, count).Select(i => Measure(
                BottleCount / 2 + i, place: 0, Normal.Sample(noise, 1, 0.03), startUtc + (ReadingInterval * i), noise, UltravioletGrid)),
        ];
    }

    private static Measurement Measure(int bottle, int place, double material, DateTimeOffset at, Random noise, ScanGrid grid)
    {
        (WallRegion region, double nominalUm, double heightMm, double hazePercent) = Places[place];
        bool amber = bottle >= BottleCount / 2;
        bool raw = bottle % RawEvery == RawEvery - 1;
        double thicknessUm = nominalUm * Normal.Sample(noise, 1, 0.02);
        var wall = new WallModel
        {
            ThicknessMm = thicknessUm / 1000,
            IndexAtInfinity = 1.555,
            CauchyNm2 = 6600,
            BlueAbsorbancePerMm = material * (amber ? 6.9 : 0.045),
            BlueDecayNm = amber ? 70 : 50,
            HazeAt550Percent = hazePercent * material * Normal.Sample(noise, 1, 0.05),
            ScatterExponent = 1.6,
        };
        return new Measurement
        {
            Scans = raw ? ScanMaker.Sphere(wall, grid, noise) : ScanMaker.Normalised(wall, grid, noise),
            Conditions = new Conditions
            {
                Instrument = raw ? "sphere bench 2" : "spectrophotometer 1",
                ApertureMm = 10,
                UvFilter = UvFilter.None,
                Geometry = Geometry.DirectionalToSphere,
                Operator = "packaging lab",
                ThicknessUm = Math.Round(thicknessUm),
                ConditioningTemperatureC = 23,
                ConditioningHumidityPercent = 50,
                ConditioningHours = 24,
            },
            Identification = new Identification
            {
                Product = amber ? AmberProduct : ClearProduct,
                Lot = amber ? "preform 118" : "preform 117",
                Specimen = string.Create(CultureInfo.InvariantCulture, $"B{bottle + 1:00}"),
                Wall = new WallPosition { Region = region, HeightMm = heightMm },
            },
            MeasuredAt = Timestamp.FromDateTimeOffset(at),
        };
    }
}

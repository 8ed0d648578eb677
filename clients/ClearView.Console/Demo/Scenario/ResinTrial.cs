using System.Collections.Immutable;
using System.Globalization;

using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

using MathNet.Numerics.Distributions;

namespace ClearView.Console.Demo.Scenario;

/// <summary>An invented trial of three resin lots, pressed into sheets: two alike, one hazier.</summary>
/// <remarks>Pure and seeded: the same seed and start give the same measurements.</remarks>
public static class ResinTrial
{
    /// <summary>The product.</summary>
    public const string Product = "PE sheet 500 trial";

    /// <summary>Specimens of each lot.</summary>
    public const int SpecimensPerLot = 8;

    /// <summary>The lots.</summary>
    public static ImmutableArray<string> Lots { get; } = ["resin 0415", "resin 0418", "resin 0421"];

    // Haze in %, of the third lot by so much above the others; specimens spread within a lot by so much.
    private const double HazePercent = 6.2;
    private const double ThirdLotExtraHazePercent = 0.55;
    private const double SecondLotExtraHazePercent = 0.03;
    private const double SpecimenHazePercent = 0.16;
    private const double SpecimenBlueShare = 0.06;

    private static readonly TimeSpan ReadingInterval = TimeSpan.FromMinutes(3);
    private static readonly ScanGrid Grid = new(StartNm: 360, StepNm: 10, Count: 43);

    /// <summary>Invents the trial.</summary>
    /// <param name="seed">Seed of the noise.</param>
    /// <param name="startUtc">Time of the first reading.</param>
    /// <returns>The measurements in the order of their times, lots in turn, normalised scans in percent, 360-780 nm at 10 nm.</returns>
    public static ImmutableArray<Measurement> Generate(int seed, DateTimeOffset startUtc)
    {
        var noise = new Random(seed);
        var trial = ImmutableArray.CreateBuilder<Measurement>(Lots.Length * SpecimensPerLot);
        for (int specimen = 0; specimen < SpecimensPerLot; specimen++)
        {
            for (int lot = 0; lot < Lots.Length; lot++)
            {
                trial.Add(Measure(lot, specimen, startUtc + (ReadingInterval * trial.Count), noise));
            }
        }

        return trial.MoveToImmutable();
    }

    private static Measurement Measure(int lot, int specimen, DateTimeOffset at, Random noise)
    {
        double extra = lot switch
        {
            1 => SecondLotExtraHazePercent,
            2 => ThirdLotExtraHazePercent,
            _ => 0,
        };
        double thicknessUm = 500 + Normal.Sample(noise, 0, 3);
        var wall = new WallModel
        {
            ThicknessMm = thicknessUm / 1000,
            IndexAtInfinity = 1.49,
            CauchyNm2 = 4500,
            BlueAbsorbancePerMm = 0.012 * (lot == 2 ? 1.5 : 1) * Normal.Sample(noise, 1, SpecimenBlueShare),
            BlueDecayNm = 50,
            HazeAt550Percent = HazePercent + extra + Normal.Sample(noise, 0, SpecimenHazePercent),
            ScatterExponent = 1.7,
        };
        return new Measurement
        {
            Scans = ScanMaker.Normalised(wall, Grid, noise),
            Conditions = new Conditions
            {
                Instrument = "spectrophotometer 1",
                ApertureMm = 25,
                UvFilter = UvFilter.None,
                Geometry = Geometry.DirectionalToSphere,
                Operator = "materials lab",
                ThicknessUm = Math.Round(thicknessUm, 1),
                ConditioningTemperatureC = 23,
                ConditioningHumidityPercent = 50,
                ConditioningHours = 48,
            },
            Identification = new Identification
            {
                Product = Product,
                Lot = Lots[lot],
                Specimen = string.Create(CultureInfo.InvariantCulture, $"{Lots[lot]}-{specimen + 1}"),
            },
            MeasuredAt = Timestamp.FromDateTimeOffset(at),
        };
    }
}

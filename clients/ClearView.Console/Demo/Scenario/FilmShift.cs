using System.Collections.Immutable;
using System.Globalization;

using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

using MathNet.Numerics.Distributions;

namespace ClearView.Console.Demo.Scenario;

/// <summary>One invented shift of a film line: twelve rolls, haze drifting upwards, one roll contaminated.</summary>
/// <remarks>Pure and seeded: the same seed and start give the same measurements.</remarks>
public static class FilmShift
{
    /// <summary>Rolls of the shift.</summary>
    public const int RollCount = 12;

    /// <summary>Readings of each roll: <see cref="AcrossCount"/> across the web at <see cref="AlongCount"/> places along it.</summary>
    public const int ReadingsPerRoll = AcrossCount * AlongCount;

    /// <summary>The contaminated roll, from 0.</summary>
    public const int BadRollIndex = 7;

    /// <summary>The production line.</summary>
    public const string Line = "Line 2";

    /// <summary>The product.</summary>
    public const string Product = "PE film 50 clear";

    /// <summary>The resin lot.</summary>
    public const string Lot = "resin 0412";

    private const int AcrossCount = 8;
    private const int AlongCount = 3;
    private const double WebWidthMm = 1600;
    private const double EdgeTrimMm = 100;
    private const double RollLengthM = 3000;
    private const int FirstRollNumber = 41;

    private const double StartHazePercent = 1.55;
    private const double DriftPercentPerRoll = 0.075;
    private const double BadRollExtraHazePercent = 2.6;
    private const double EdgeExtraHazePercent = 0.14;
    private const double RollToRollHazePercent = 0.05;
    private const double RepeatabilityHazePercent = 0.045;
    private const double CleanBlueAbsorbance = 0.0035;
    private const double BadRollBlueAbsorbance = 0.024;

    private static readonly TimeSpan RollDuration = TimeSpan.FromMinutes(40);
    private static readonly TimeSpan ReadingInterval = TimeSpan.FromSeconds(90);
    private static readonly ScanGrid Grid = new(StartNm: 380, StepNm: 5, Count: 81);

    /// <summary>Name of a roll.</summary>
    /// <param name="rollIndex">The roll, from 0 to <see cref="RollCount"/> - 1.</param>
    public static string RollName(int rollIndex) =>
        string.Create(CultureInfo.InvariantCulture, $"R-{FirstRollNumber + rollIndex:0000}");

    /// <summary>Invents the shift.</summary>
    /// <param name="seed">Seed of the noise.</param>
    /// <param name="startUtc">Time of the first reading.</param>
    /// <returns>The measurements in the order of their times, normalised scans in percent, 380-780 nm at 5 nm.</returns>
    public static ImmutableArray<Measurement> Generate(int seed, DateTimeOffset startUtc)
    {
        var noise = new Random(seed);
        var shift = ImmutableArray.CreateBuilder<Measurement>(RollCount * ReadingsPerRoll);
        for (int roll = 0; roll < RollCount; roll++)
        {
            double rollBlue = Normal.Sample(noise, 1, 0.25);
            double rollHaze = StartHazePercent + (DriftPercentPerRoll * roll) + Normal.Sample(noise, 0, RollToRollHazePercent)
                + (roll == BadRollIndex ? BadRollExtraHazePercent : 0);
            for (int reading = 0; reading < ReadingsPerRoll; reading++)
            {
                DateTimeOffset at = startUtc + (RollDuration * roll) + (ReadingInterval * reading);
                shift.Add(Measure(roll, reading, rollHaze, rollBlue, at, noise));
            }
        }

        return shift.MoveToImmutable();
    }

    /// <summary>Time between the beginnings of two rolls.</summary>
    public static TimeSpan RollInterval => RollDuration;

    private static Measurement Measure(int roll, int reading, double rollHazePercent, double rollBlue, DateTimeOffset at, Random noise)
    {
        int across = reading % AcrossCount;
        int along = reading / AcrossCount;
        double share = (double)across / (AcrossCount - 1);
        double fromMiddle = (2 * share) - 1;
        bool bad = roll == BadRollIndex;

        double thicknessUm = 50 + (1.2 * Math.Sin(Math.PI * 2 * share)) + Normal.Sample(noise, 0, 0.4);
        // Contamination is patchy: it varies along the roll as well as across it.
        double patch = bad ? Normal.Sample(noise, 0, 0.35) : 0;
        double haze = rollHazePercent + (EdgeExtraHazePercent * fromMiddle * fromMiddle) + patch
            + Normal.Sample(noise, 0, RepeatabilityHazePercent);
        var wall = new WallModel
        {
            ThicknessMm = thicknessUm / 1000,
            IndexAtInfinity = 1.49,
            CauchyNm2 = 4500,
            BlueAbsorbancePerMm = (bad ? BadRollBlueAbsorbance * (1 + (0.3 * patch)) : CleanBlueAbsorbance * rollBlue) * Normal.Sample(noise, 1, 0.12) / 0.05,
            BlueDecayNm = bad ? 75 : 45,
            HazeAt550Percent = haze,
            ScatterExponent = bad ? 1.5 : 1.9,
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
                Operator = "early shift",
                ThicknessUm = Math.Round(thicknessUm, 1),
                ConditioningTemperatureC = 23,
                ConditioningHumidityPercent = 50,
                ConditioningHours = 40,
            },
            Identification = new Identification
            {
                Line = Line,
                Product = Product,
                Lot = Lot,
                Roll = RollName(roll),
                Specimen = string.Create(CultureInfo.InvariantCulture, $"{RollName(roll)}-{reading + 1:00}"),
                Web = new WebPosition
                {
                    AcrossMm = Math.Round(EdgeTrimMm + (share * (WebWidthMm - (2 * EdgeTrimMm)))),
                    AlongM = RollLengthM * along / (AlongCount - 1),
                },
            },
            MeasuredAt = Timestamp.FromDateTimeOffset(at),
        };
    }
}

using ClearView.Console.Demo.Scenario;
using ClearView.V1;

namespace ClearView.Console.Tests.Demo.Scenario;

public sealed class FilmShiftTests
{
    private const int Seed = 1;

    // Refractive index of polyethylene film near 1.5 (common practice, no source): two faces lose about 2 × 4 %, so that
    // no clear film passes more than some 92.6 %.
    private const double FresnelLimitPercent = 92.8;

    [Fact]
    public void Generate_SameSeed_GivesTheSameShift() =>
        Assert.Equal(FilmShift.Generate(Seed, ScenarioValues.Start), FilmShift.Generate(Seed, ScenarioValues.Start));

    [Fact]
    public void Generate_AnotherSeed_GivesOtherNoise() =>
        Assert.NotEqual(
            FilmShift.Generate(Seed, ScenarioValues.Start)[0].Scans, FilmShift.Generate(Seed + 1, ScenarioValues.Start)[0].Scans);

    [Fact]
    public void Generate_Shift_HasTwelveRollsOfTwentyFourUniqueSpecimensInOrderOfTime()
    {
        IReadOnlyList<Measurement> shift = FilmShift.Generate(Seed, ScenarioValues.Start);

        Assert.Equal(288, shift.Count);
        Assert.Equal(Enumerable.Repeat(24, 12), shift.GroupBy(m => m.Identification.Roll).Select(roll => roll.Count()));
        Assert.Equal(288, shift.Select(m => m.Identification.Specimen).Distinct().Count());
        Assert.Equal(ScenarioValues.Start, shift[0].MeasuredAt.ToDateTimeOffset());
        Assert.All(shift.Zip(shift.Skip(1)), pair => Assert.True(pair.First.MeasuredAt < pair.Second.MeasuredAt));
        Assert.True(shift[^1].MeasuredAt.ToDateTimeOffset() < ScenarioValues.Start.AddHours(8));
    }

    [Fact]
    public void Generate_EveryScan_IsPhysicallyPossible()
    {
        foreach (NormalisedScans scans in FilmShift.Generate(Seed, ScenarioValues.Start).Select(m => m.Scans.Normalised))
        {
            Assert.Equal(81, scans.TotalTransmittance.Count);
            Assert.All(scans.TotalTransmittance.Zip(scans.DiffuseTransmittance), pair =>
            {
                Assert.InRange(pair.First, 50, FresnelLimitPercent);
                Assert.InRange(pair.Second, 0, pair.First);
            });
        }
    }

    [Fact]
    public void Generate_BadRoll_IsTheOnlyOneOfHighHazeAndYellowness()
    {
        IGrouping<string, Measurement>[] rolls = [.. FilmShift.Generate(Seed, ScenarioValues.Start).GroupBy(m => m.Identification.Roll)];

        double[] haze = [.. rolls.Select(roll => roll.Average(m => ScenarioValues.Value(m, "haze")))];
        double[] yellowness = [.. rolls.Select(roll => roll.Average(m => ScenarioValues.Value(m, "yellowness_index_e313")))];
        Assert.Equal([FilmShift.RollName(FilmShift.BadRollIndex)], rolls.Where((_, i) => haze[i] > 3).Select(roll => roll.Key));
        Assert.Equal([FilmShift.RollName(FilmShift.BadRollIndex)], rolls.Where((_, i) => yellowness[i] > 1.5).Select(roll => roll.Key));
    }

    [Fact]
    public void Generate_Haze_DriftsUpwardOverTheShift()
    {
        double[] haze =
        [
            .. FilmShift.Generate(Seed, ScenarioValues.Start)
                .GroupBy(m => m.Identification.Roll)
                .Select(roll => roll.Average(m => ScenarioValues.Value(m, "haze"))),
        ];

        Assert.True(haze[..4].Average() + 0.3 < haze[^4..].Average());
    }

    [Fact]
    public void Generate_HazeOfOneReading_FallsWithWavelength()
    {
        NormalisedScans scans = FilmShift.Generate(Seed, ScenarioValues.Start)[0].Scans.Normalised;
        double blue = scans.DiffuseTransmittance[4] / scans.TotalTransmittance[4];
        double red = scans.DiffuseTransmittance[64] / scans.TotalTransmittance[64];

        // λ⁻ⁿ with n = 1.9 between 400 and 700 nm, by hand: (700 / 400)^1.9 = 2.90; noise stays well within a tenth.
        Assert.Equal(2.90, blue / red, 0.29);
    }

    [Fact]
    public void Generate_Conditions_AreThoseOfTheLab()
    {
        Assert.All(FilmShift.Generate(Seed, ScenarioValues.Start), m =>
        {
            Assert.InRange(m.Conditions.ThicknessUm, 45, 55);
            Assert.Equal(23, m.Conditions.ConditioningTemperatureC);
            Assert.Equal(50, m.Conditions.ConditioningHumidityPercent);
            Assert.InRange(m.Identification.Web.AcrossMm, 100, 1500);
            Assert.InRange(m.Identification.Web.AlongM, 0, 3000);
        });
    }
}

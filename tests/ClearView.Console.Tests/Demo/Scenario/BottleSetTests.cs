using ClearView.Console.Demo.Scenario;
using ClearView.V1;

namespace ClearView.Console.Tests.Demo.Scenario;

public sealed class BottleSetTests
{
    private const int Seed = 2;

    [Fact]
    public void Generate_SameSeed_GivesTheSameSet() =>
        Assert.Equal(BottleSet.Generate(Seed, ScenarioValues.Start), BottleSet.Generate(Seed, ScenarioValues.Start));

    [Fact]
    public void Generate_Set_HasFourRegionsOfTwelveBottles()
    {
        IReadOnlyList<Measurement> set = BottleSet.Generate(Seed, ScenarioValues.Start);

        Assert.Equal(48, set.Count);
        Assert.Equal(12, set.Select(m => m.Identification.Specimen).Distinct().Count());
        Assert.All(set.GroupBy(m => m.Identification.Specimen), bottle =>
            Assert.Equal(4, bottle.Select(m => m.Identification.Wall.Region).Distinct().Count()));
        Assert.All(set.Zip(set.Skip(1)), pair => Assert.True(pair.First.MeasuredAt < pair.Second.MeasuredAt));
    }

    [Fact]
    public void Generate_EveryThirdBottle_ComesAsRawSphereReadings()
    {
        IReadOnlyList<Measurement> set = BottleSet.Generate(Seed, ScenarioValues.Start);

        Assert.Equal(16, set.Count(m => m.Scans.FormCase == Scans.FormOneofCase.Sphere));
        Assert.Contains(set, m => m.Identification.Product == BottleSet.AmberProduct && m.Scans.Sphere is not null);
        Assert.Contains(set, m => m.Identification.Product == BottleSet.ClearProduct && m.Scans.Sphere is not null);
    }

    [Fact]
    public void Generate_SphereReadings_AreWholeCountsInTheOrderOfTheLight()
    {
        foreach (SphereScans scans in BottleSet.Generate(Seed, ScenarioValues.Start).Select(m => m.Scans.Sphere).OfType<SphereScans>())
        {
            Assert.All(scans.IncidentReading, reading => Assert.True(reading > 0 && reading == Math.Round(reading)));
            Assert.All(scans.IncidentReading.Zip(scans.TotalReading), pair => Assert.True(pair.Second < pair.First));
            Assert.All(scans.IncidentReading.Zip(scans.InstrumentScatterReading), pair => Assert.True(pair.Second < 0.01 * pair.First));
        }
    }

    [Fact]
    public void Generate_RawAndNormalisedBottles_AgreeInHaze()
    {
        Measurement[] panels =
        [
            .. BottleSet.Generate(Seed, ScenarioValues.Start)
                .Where(m => m.Identification.Product == BottleSet.ClearProduct && m.Identification.Wall.Region == WallRegion.Panel),
        ];

        double raw = panels.Where(m => m.Scans.Sphere is not null).Average(m => ScenarioValues.Value(m, "haze"));
        double normalised = panels.Where(m => m.Scans.Normalised is not null).Average(m => ScenarioValues.Value(m, "haze"));
        Assert.Equal(normalised, raw, 0.4);
    }

    [Fact]
    public void Generate_Amber_HoldsBackBlueAndIsDarker()
    {
        ILookup<string, Measurement> products = BottleSet.Generate(Seed, ScenarioValues.Start).ToLookup(m => m.Identification.Product);

        Assert.All(products[BottleSet.ClearProduct], m => Assert.InRange(ScenarioValues.Value(m, "luminous_transmittance"), 85, 92));
        Assert.All(products[BottleSet.AmberProduct], m =>
        {
            Assert.InRange(ScenarioValues.Value(m, "luminous_transmittance"), 20, 70);
            Assert.True(ScenarioValues.Value(m, "cielab_b") > 40);
        });
    }

    [Fact]
    public void Generate_Base_IsThickestAndHaziest()
    {
        foreach (IGrouping<string, Measurement> bottle in BottleSet.Generate(Seed, ScenarioValues.Start).GroupBy(m => m.Identification.Specimen))
        {
            Assert.Equal(WallRegion.Base, bottle.MaxBy(m => m.Conditions.ThicknessUm)!.Identification.Wall.Region);
            Assert.Equal(WallRegion.Base, bottle.MaxBy(m => ScenarioValues.Value(m, "haze"))!.Identification.Wall.Region);
        }
    }
}

using ClearView.V1;

using MathNet.Numerics.Distributions;

namespace ClearView.Console.Demo.Scenario;

/// <summary>What an instrument would report of a sheet, with its noise and its resolution.</summary>
internal static class ScanMaker
{
    private const double LevelNoiseShare = 0.0004;
    private const double TotalNoisePercent = 0.02;
    private const double DiffuseNoisePercent = 0.006;
    private const int PercentDecimals = 3;

    private const double FullScaleCounts = 48_000;
    private const double CountNoiseShare = 2e-5;
    private const double InstrumentScatterShare = 0.0035;

    /// <summary>Scans already normalised to percent.</summary>
    public static Scans Normalised(WallModel wall, ScanGrid grid, Random noise)
    {
        var scans = new NormalisedScans { Grid = grid.ToWire(), TransmittanceUnit = TransmittanceUnit.Percent };
        // The 100 % line wanders between readings, a little more at one end of the spectrum than at the other.
        double level = Normal.Sample(noise, 1, LevelNoiseShare);
        double tilt = Normal.Sample(noise, 0, LevelNoiseShare);
        for (int i = 0; i < grid.Count; i++)
        {
            double nm = grid.WavelengthNm(i);
            double line = level + (tilt * (((double)i / (grid.Count - 1)) - 0.5));
            double total = (100 * line * wall.Total(nm)) + Normal.Sample(noise, 0, TotalNoisePercent);
            double diffuse = (100 * line * wall.Diffuse(nm)) + Normal.Sample(noise, 0, DiffuseNoisePercent);
            scans.TotalTransmittance.Add(Math.Round(total, PercentDecimals));
            scans.DiffuseTransmittance.Add(Math.Round(diffuse, PercentDecimals));
        }

        return new Scans { Normalised = scans };
    }

    /// <summary>The four raw readings of a sphere, in whole counts of its detector.</summary>
    /// <remarks>T4 follows from Td = (T4 - T3·T2/T1) / T1 (ASTM D1003), solved for T4.</remarks>
    public static Scans Sphere(WallModel wall, ScanGrid grid, Random noise)
    {
        var scans = new SphereScans { Grid = grid.ToWire() };
        for (int i = 0; i < grid.Count; i++)
        {
            double nm = grid.WavelengthNm(i);
            // Lamp and detector together are weak in the blue.
            double incident = FullScaleCounts * (0.35 + (0.65 / (1 + Math.Exp((470 - nm) / 45))));
            double scatter = InstrumentScatterShare * incident;
            double total = wall.Total(nm);
            scans.IncidentReading.Add(Count(incident, noise));
            scans.TotalReading.Add(Count(total * incident, noise));
            scans.InstrumentScatterReading.Add(Count(scatter, noise));
            scans.SpecimenScatterReading.Add(Count((wall.Diffuse(nm) * incident) + (scatter * total), noise));
        }

        return new Scans { Sphere = scans };
    }

    private static double Count(double expected, Random noise) =>
        Math.Round(expected + Normal.Sample(noise, 0, CountNoiseShare * FullScaleCounts));
}

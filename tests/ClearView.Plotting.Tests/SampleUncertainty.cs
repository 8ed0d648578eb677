using ClearView.Plotting.Charts;
using ClearView.V1;

using Google.Protobuf.Collections;

namespace ClearView.Plotting.Tests;

/// <summary>Readings of an instrument whose errors are stated.</summary>
internal static class SampleUncertainty
{
    public const double TotalFraction = 0.004;
    public const double DiffuseFraction = 0.0015;
    public const double HazePercent = 0.2;

    public static Method Method()
    {
        Method method = SampleReadings.Method();
        method.YellownessIndices.Add(YellownessIndex.AstmE313);
        method.Uncertainty = new UncertaintyInputs
        {
            CoveragePercent = 95,
            RepeatabilityPercent = 0.1,
            ZeroOffsetPercent = 0.05,
            HundredLineDriftPercent = 0.1,
            LinearityPercent = 0.1,
            WavelengthShiftNm = 0.3,
            StrayLightPercent = 0.02,
        };
        return method;
    }

    /// <summary>A film with the uncertainties of its spectra filled in by hand, the same at each wavelength.</summary>
    public static ChartReading Film(double totalPercent = 90, double diffusePercent = 2, string specimen = "S1", Method? method = null)
    {
        ChartReading reading = SampleReadings.Film(
            totalPercent: totalPercent, diffusePercent: diffusePercent, specimen: specimen, blueLossPercent: 8, method: method ?? Method());
        TransmittanceSpectra spectra = reading.Evaluation.Spectra;
        Fill(spectra.TotalStandardUncertaintyFraction, TotalFraction, spectra.TotalFraction.Count);
        Fill(spectra.DiffuseStandardUncertaintyFraction, DiffuseFraction, spectra.TotalFraction.Count);
        Fill(spectra.HazeStandardUncertaintyPercent, HazePercent, spectra.TotalFraction.Count);
        return reading;
    }

    /// <summary>A run whose readings carry uncertainties.</summary>
    public static IReadOnlyList<ChartReading> Run() =>
        [.. Enumerable.Range(0, 12).Select(i => SampleReadings.Film(
            diffusePercent: 1 + (0.2 * i), roll: $"R-{100 + (i / 4)}", specimen: $"S{i}", minutes: 2 * i, blueLossPercent: i, method: Method()))];

    private static void Fill(RepeatedField<double> field, double value, int count)
    {
        field.Clear();
        field.Add(Enumerable.Repeat(value, count));
    }
}

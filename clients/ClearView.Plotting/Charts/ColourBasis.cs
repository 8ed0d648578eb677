namespace ClearView.Plotting.Charts;

/// <summary>What all colours of one chart must share.</summary>
internal static class ColourBasis
{
    /// <summary>The readings that have a colour; refuses when there is none or when they hold for different lights.</summary>
    /// <param name="readings">The readings.</param>
    /// <param name="measurand">One of the measurands that the chart needs.</param>
    public static ChartReading[] Require(IReadOnlyList<ChartReading> readings, Optics.Evaluations.Measurand measurand)
    {
        if (readings.Count == 0)
        {
            throw new ChartRefusedException("There is no reading to show. Widen the filters, or name files.");
        }

        ChartReading[] coloured = [.. readings.Where(reading => reading.Find(measurand.Id) is not null)];
        if (coloured.Length == 0)
        {
            throw new ChartRefusedException(
                $"None of the {readings.Count} readings has a colour ({measurand.Name}): readings of a hazemeter have none. "
                + "Choose readings with spectral scans.");
        }

        string[] lights = [.. coloured.Select(reading => Wording.Pair(reading.Find(measurand.Id)!.LightAndObserver)).Distinct()];
        return lights.Length == 1
            ? coloured
            : throw new ChartRefusedException(
                $"The colours hold for different lights ({string.Join("; ", lights)}) and cannot share axes. Choose readings of one.");
    }

    /// <summary>A note where some readings have no colour.</summary>
    public static string[] MissingNote(int all, int coloured) => all == coloured
        ? []
        : [$"Note: {all - coloured} of {all} readings have no colour and are not shown."];

    public static string Footer(ChartReading[] readings, Optics.Evaluations.Measurand measurand) =>
        $"Method: {Wording.Bases(readings.Select(reading => reading.Find(measurand.Id)!))}.";

    public static double Number(ChartReading reading, Optics.Evaluations.Measurand measurand) =>
        reading.Find(measurand.Id)?.Value ?? double.NaN;

    /// <summary>Products or specimens of a chart in a line.</summary>
    public static string Subtitle(ChartReading[] readings)
    {
        if (readings.Length == 1)
        {
            return Wording.Specimen(readings[0]);
        }

        string[] products = [.. readings.Select(reading => reading.Product).Where(name => name.Length > 0).Distinct()];
        string what = products.Length is > 0 and < 4 ? string.Join(", ", products) + ", " : "";
        return $"{what}{readings.Length} readings";
    }
}

using System.Globalization;

using ClearView.Client.Files;
using ClearView.Console.Rendering.Decisions;
using ClearView.Optics.Evaluations;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Console.Rendering;

/// <summary>Readings as a table of values in CSV, one row each, which the studies take as it is (docs/files.md).</summary>
internal static class ReadingsCsv
{
    /// <summary>Writes the table.</summary>
    /// <param name="screen">Takes it.</param>
    /// <param name="readings">The readings.</param>
    public static void Write(Screen screen, IReadOnlyList<Reading> readings)
    {
        // In the order of the registry, whichever reading has them.
        var there = readings.SelectMany(reading => reading.Evaluation.Values.Select(value => value.Measurand)).ToHashSet(StringComparer.Ordinal);
        var measurands = Measurands.All.Select(measurand => measurand.Id).Where(there.Remove).ToList();
        measurands.AddRange(there.Order(StringComparer.Ordinal));
        screen.Output.WriteLine(CsvText.Row(
        [
            "reading_id", ScanFileKeys.MeasuredAt, "recorded_at", ScanFileKeys.Line, ScanFileKeys.Product, ScanFileKeys.Lot, ScanFileKeys.Roll,
            ScanFileKeys.Specimen, ScanFileKeys.Instrument, ScanFileKeys.AcrossMm, ScanFileKeys.AlongM, "verdict", .. measurands,
        ]));
        foreach (var reading in readings)
        {
            screen.Output.WriteLine(CsvText.Row([.. Identification(reading), .. measurands.Select(measurand => Value(reading, measurand))]));
        }
    }

    private static IEnumerable<string> Identification(Reading reading)
    {
        var (measurement, who) = (reading.Measurement, reading.Measurement.Identification);
        return
        [
            reading.ReadingId,
            Time(measurement.MeasuredAt),
            Time(reading.RecordedAt),
            CsvText.Cell(who.Line),
            CsvText.Cell(who.Product),
            CsvText.Cell(who.Lot),
            CsvText.Cell(who.Roll),
            CsvText.Cell(who.Specimen),
            CsvText.Cell(measurement.Conditions.Instrument),
            CsvText.Cell(who.Web is { HasAcrossMm: true } across ? across.AcrossMm : null),
            CsvText.Cell(who.Web is { HasAlongM: true } along ? along.AlongM : null),
            CsvText.Cell(reading.Verdict is { } verdict ? VerdictColumn.Of(verdict) : ""),
        ];
    }

    private static string Time(Timestamp time) => time.ToDateTime().ToString("O", CultureInfo.InvariantCulture);

    private static string Value(Reading reading, string measurand) =>
        CsvText.Cell(reading.Evaluation.Values.FirstOrDefault(value => value.Measurand == measurand)?.Value);
}

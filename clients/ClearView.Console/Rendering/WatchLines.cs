using System.Globalization;

using ClearView.Console.Rendering.Decisions;
using ClearView.Optics.Evaluations;
using ClearView.V1;

using Spectre.Console;

using Measurand = ClearView.Optics.Evaluations.Measurand;

namespace ClearView.Console.Rendering;

/// <summary>Readings as they come, a line each in columns that do not move, and their signals below.</summary>
internal static class WatchLines
{
    private const int LineColumns = 10;
    private const int SpecimenColumns = 16;

    private static readonly Measurand[] Yellowness =
        [Measurands.YellownessIndexE313, Measurands.YellownessIndexIso17223, Measurands.YellownessIndexD1925];

    /// <summary>Writes the names of the columns.</summary>
    public static void WriteHeader(Screen screen)
    {
        screen.Line($"[bold]{"Measured (UTC)",-19}  {"Line",-LineColumns}  {"Specimen",-SpecimenColumns}  {"Haze, %",8}  {"τt, %",7}  {"YI",6}  Verdict[/]");
        screen.Output.Flush();
    }

    /// <summary>Writes a reading.</summary>
    public static void Write(Screen screen, Reading reading)
    {
        var time = reading.Measurement.MeasuredAt.ToDateTime().ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture);
        var identification = reading.Measurement.Identification;
        var haze = Value(reading, Measurands.Haze);
        var transmittance = Value(reading, Measurands.LuminousTransmittance);
        var yellowness = Yellowness.Select(index => Value(reading, index)).FirstOrDefault(value => value != "-") ?? "-";
        var verdict = reading.Verdict is { } judged ? DecisionText.Outcome(judged.Outcome) : "-";
        screen.Line(
            $"{time}  {Cell(identification?.Line, LineColumns)}  {Cell(identification?.Specimen, SpecimenColumns)}  {haze,8}  {transmittance,7}  {yellowness,6}  {verdict}");
        foreach (var signal in reading.Signals)
        {
            WriteSignal(screen, reading, signal);
        }
    }

    // What does not fit into the line goes on below its own beginning. A signal of another point than the reading's says which.
    private static void WriteSignal(Screen screen, Reading reading, RaisedSignal signal)
    {
        var point = signal.MeasuredAt is null || signal.MeasuredAt.Equals(reading.Measurement.MeasuredAt)
            ? ""
            : string.Create(CultureInfo.InvariantCulture, $", at {signal.MeasuredAt.ToDateTime():yyyy-MM-dd HH:mm:ss}");
        var text = $"{DecisionText.Versioned(signal.ControlChartName.Name, signal.ControlChartName.Version)}{point}: {signal.Message}{(signal.Revised ? " LATE" : "")}";
        var grid = new Grid().AddColumn(new GridColumn().NoWrap().PadLeft(2).PadRight(1)).AddColumn(new GridColumn().PadLeft(0).PadRight(0));
        grid.AddRow(new Markup("[yellow]! signal[/]"), new Markup(Markup.Escape(text)));
        screen.Write(grid);
    }

    private static string Value(Reading reading, Measurand measurand) =>
        reading.Evaluation.Values.FirstOrDefault(value => value.Measurand == measurand.Id) is { } value ? NumberText.Of(value) : "-";

    // A longer name is shown as it is, and moves what follows it on its line.
    private static string Cell(string? text, int columns) => Markup.Escape((string.IsNullOrEmpty(text) ? "-" : text).PadRight(columns));
}

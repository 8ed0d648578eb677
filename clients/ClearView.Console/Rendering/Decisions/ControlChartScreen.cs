using System.Globalization;

using ClearView.V1;

using Spectre.Console;

namespace ClearView.Console.Rendering.Decisions;

/// <summary>A control chart: what it is, its limits, and the signals in words.</summary>
internal static class ControlChartScreen
{
    private const int MostSignals = 40;

    /// <summary>Writes a stored chart without its points.</summary>
    /// <param name="screen">Where.</param>
    /// <param name="named">The chart.</param>
    /// <param name="hasTimes">Whether its values have times of measurement; otherwise they are counted.</param>
    public static void Write(Screen screen, NamedControlChart named, bool hasTimes = true)
    {
        var rows = new List<(string Label, string Text)>();
        if (named.ControlChartName is { Name.Length: > 0 } name)
        {
            rows.Add(("Control chart", DecisionText.Versioned(name.Name, name.Version)));
        }
        if (named.Description.Length > 0)
        {
            rows.Add(("Description", named.Description));
        }
        if (named.StoredAt is { } at)
        {
            rows.Add(("Stored", $"{SpecimenDetail.Time(at)} by {named.StoredBy}"));
        }
        rows.Add(("Series", ControlChartText.Series(named.ControlChart.Series)));
        rows.Add(("Kind", ControlChartText.Kind(named.ControlChart)));
        rows.Add(("Signal rules", ControlChartText.Rules(named.ControlChart)));
        MethodPanel.WriteRows(screen, rows);
        WritePhases(screen, named.ControlChart, hasTimes);
    }

    /// <summary>Writes a drawn chart.</summary>
    /// <param name="screen">Where.</param>
    /// <param name="drawn">The chart, its parts put together.</param>
    /// <param name="hasTimes">Whether its values have times of measurement; otherwise they are counted.</param>
    public static void Write(Screen screen, DrawnControlChart drawn, bool hasTimes = true)
    {
        Write(screen, drawn.ControlChart, hasTimes);
        WriteSummary(screen, drawn.Summary);
        WriteSignals(screen, drawn, hasTimes);

        // Once is enough where the baseline is cautioned about in the same words.
        var caution = drawn.Summary.AutocorrelationCaution;
        if (caution.Length > 0
            && !drawn.ControlChart.ControlChart.Phases.Any(phase => phase.Limits?.Remarks.Any(remark => remark == caution) == true))
        {
            screen.Line(Markup.Escape(caution));
        }
    }

    /// <summary>Writes a list of charts.</summary>
    public static void WriteList(Screen screen, IReadOnlyCollection<NamedControlChart> charts)
    {
        if (charts.Count == 0)
        {
            screen.Line("No control chart is stored.");
            return;
        }
        var table = new DataTable().Words("Name").Numbers("Version").Text("Series").Text("Kind").Numbers("Phases").Text("Description").Text("Stored");
        foreach (var one in charts)
        {
            table.Row(
                NameText.Of(screen, one.ControlChartName.Name),
                NumberText.Plain(one.ControlChartName.Version),
                Markup.Escape(ControlChartText.Series(one.ControlChart.Series)),
                Markup.Escape(ControlChartText.Kind(one.ControlChart.Kind)),
                NumberText.Plain(one.ControlChart.Phases.Count),
                Markup.Escape(one.Description),
                Markup.Escape($"{SpecimenDetail.Time(one.StoredAt)} by {one.StoredBy}"));
        }
        table.Write(screen);
    }

    /// <summary>Writes the signals that posted readings raised; each names its chart.</summary>
    public static void WriteRaised(Screen screen, IEnumerable<(string Specimen, RaisedSignal Signal)> raised)
    {
        var table = new DataTable().Words("Specimen").Text("Control chart").Text("Signal");
        foreach (var (specimen, signal) in raised)
        {
            table.Row(
                Markup.Escape(NameText.Of(screen, specimen)),
                Markup.Escape(DecisionText.Versioned(signal.ControlChartName.Name, signal.ControlChartName.Version)),
                $"[yellow]![/] {Markup.Escape(signal.Message)}{(signal.Revised ? " [bold]LATE[/]: the chart after it was drawn anew" : "")}");
        }
        if (table.Rows == 0)
        {
            return;
        }
        screen.Line();
        screen.Line("[bold]Signals raised[/]");
        table.Write(screen);
    }

    private static void WritePhases(Screen screen, ControlChart chart, bool hasTimes)
    {
        var table = new DataTable().Text("Phase").Words("From (UTC)").Numbers("Centre", "σ within", "Subgroup").Text("Limits taken from");
        var remarks = new List<string>();
        foreach (var phase in chart.Phases)
        {
            var limits = phase.Limits;
            table.Row(
                Markup.Escape(phase.Name),
                phase.MeasuredFrom is { } from ? Time(from) : "beginning",
                limits is null ? "-" : NumberText.Supported(limits.Centre, limits.StandardDeviation, 1),
                limits is null ? "-" : NumberText.Supported(limits.StandardDeviation, limits.StandardDeviation, 1),
                limits is null ? "-" : NumberText.Plain(Math.Max(1, limits.SubgroupCount)),
                Markup.Escape(Source(phase, hasTimes)));
            remarks.AddRange((limits?.Remarks ?? []).Select(remark => $"{phase.Name}: {remark}"));
        }
        table.Write(screen);
        DecisionText.WriteSentences(screen, remarks);
    }

    private static string Source(ControlPhase phase, bool hasTimes) => phase switch
    {
        { Limits: { BaselineCount: > 0 } limits } =>
            $"{VerdictText.Counted((int)limits.BaselineCount, "point")}{(hasTimes ? $", {DecisionText.Span(limits.Baseline)}" : "")}{(limits.Estimate.Length > 0 ? $"; {limits.Estimate}" : "")}",
        { Limits: not null } => phase.Limits.Estimate.Length > 0 ? phase.Limits.Estimate : "known values",
        _ => DecisionText.Span(phase.Baseline),
    };

    private static void WriteSummary(Screen screen, ControlChartSummary summary)
    {
        List<(string Label, string Text)> rows =
        [
            ("Shown", $"{summary.Name}: {Counted(summary.ReadingCount, "reading")}, {Counted(summary.PointCount, "point")}"
                + (summary.Thinned ? "; too many to send one by one, so that stretches stand for points" : "")),
            ("Points with signals", summary.SignalPointCount == 0
                ? "none"
                : $"{NumberText.Plain(summary.SignalPointCount)}: {string.Join("; ", summary.Patterns.Select(one => $"{NumberText.Plain(one.PointCount)} {ControlChartText.Pattern(one.Pattern)}"))}"),
        ];
        if (summary.LateReadingCount > 0)
        {
            rows.Add(("Late readings", $"{NumberText.Plain(summary.LateReadingCount)}: recorded after a later one, put in their place by time of measurement"
                + (summary.RevisedFrom is { } from ? $"; the chart was drawn anew from {SpecimenDetail.Time(from)}" : "")));
        }
        if (summary.HasAutocorrelation)
        {
            rows.Add(("Autocorrelation", NumberText.Fixed(summary.Autocorrelation, 2)));
        }
        MethodPanel.WriteRows(screen, rows);
    }

    private static void WriteSignals(Screen screen, DrawnControlChart drawn, bool hasTimes)
    {
        var signals = drawn.Points.Where(point => point.Patterns.Count > 0).ToList();
        if (signals.Count == 0)
        {
            return;
        }
        var chart = drawn.ControlChart.ControlChart;
        var labelled = signals.Exists(point => point.Label.Length > 0);
        var table = hasTimes ? new DataTable().Words("Measured (UTC)") : new DataTable().Numbers("Point");
        table = chart.Phases.Count > 1 ? table.Text("Phase") : table;
        table = labelled ? table.Words("Label") : table;
        table = chart.Kind switch
        {
            ControlChartKind.Cusum => table.Numbers("Value", "Sum\nabove", "Sum\nbelow", "Limit"),
            ControlChartKind.Ewma => table.Numbers("Value", "Moving\naverage", "Lower\nlimit", "Upper\nlimit"),
            _ => table.Numbers("Value", "Lower\nlimit", "Upper\nlimit"),
        };
        table = table.Text("Signal");
        // The newest are what somebody acts on.
        foreach (var point in signals.TakeLast(MostSignals))
        {
            List<string> cells = [hasTimes ? Time(point.MeasuredAt) : NumberText.Plain(point.PositionCount + 1)];
            if (chart.Phases.Count > 1)
            {
                cells.Add(Markup.Escape(PhaseName(drawn, point.PhaseCount)));
            }
            if (labelled)
            {
                cells.Add(Markup.Escape(NameText.Of(screen, point.Label)));
            }
            cells.AddRange((chart.Kind switch
            {
                ControlChartKind.Cusum => (double[])[point.Value, point.SumAbove, point.SumBelow, point.Upper],
                ControlChartKind.Ewma => [point.Value, point.Plotted, point.Lower, point.Upper],
                _ => [point.Value, point.Lower, point.Upper],
            }).Select(number => Number(chart, point, number)));
            cells.Add($"[yellow]![/] {Markup.Escape(string.Join("; ", point.Patterns.Select(pattern => Pattern(chart, point, pattern))))}{(point.Late ? " [bold]LATE[/]" : "")}");
            table.Row([.. cells]);
        }
        table.Write(screen);
        if (signals.Count > MostSignals)
        {
            screen.Note($"the last {NumberText.Plain(MostSignals)} of {NumberText.Plain(signals.Count)} points with signals are shown; --json holds them all");
        }
    }

    private static string Pattern(ControlChart chart, ControlChartPoint point, ControlPattern pattern) =>
        pattern == ControlPattern.SpreadBeyondLimits && point.HasSpread && point.HasSpreadUpper
            ? $"spread {Number(chart, point, point.Spread)} beyond its limit {Number(chart, point, point.Spread > point.SpreadCentre ? point.SpreadUpper : point.SpreadLower)}"
            : ControlChartText.Pattern(pattern);

    // The spread within subgroups says how many digits tell points apart.
    private static string Number(ControlChart chart, ControlChartPoint point, double value) =>
        NumberText.Supported(value, point.PhaseCount < chart.Phases.Count ? chart.Phases[(int)point.PhaseCount].Limits?.StandardDeviation ?? 0 : 0);

    private static string PhaseName(DrawnControlChart drawn, uint phase) =>
        phase < drawn.ControlChart.ControlChart.Phases.Count ? drawn.ControlChart.ControlChart.Phases[(int)phase].Name : "";

    private static string Time(Google.Protobuf.WellKnownTypes.Timestamp time) => time.ToDateTime().ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);

    private static string Counted(ulong count, string noun) => VerdictText.Counted((int)count, noun);
}

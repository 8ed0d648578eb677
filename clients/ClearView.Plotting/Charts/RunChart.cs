using System.Collections.Immutable;

using ClearView.Plotting.Model;
using ClearView.V1;

namespace ClearView.Plotting.Charts;

/// <summary>One measurand of a run against its limit, reading by reading, roll by roll.</summary>
public static class RunChart
{
    private const double LeastSpanShare = 0.05;
    private const double LeastSpan = 0.002;
    private const double AxisRoomShare = 0.06;
    private const string Fails = "fails the limit";

    private static readonly ImmutableArray<SeriesLook> RollLooks =
    [
        new(LineKind.None, MarkKind.FilledCircle, Ink.Blue) { MarkSize = 5 },
        new(LineKind.None, MarkKind.OpenSquare, Ink.Black) { MarkSize = 5 },
    ];

    private static readonly SeriesLook FailLook = new(LineKind.None, MarkKind.DiagonalCross, Ink.Vermilion) { MarkSize = 8 };
    private static readonly SeriesLook MeanLook = new(LineKind.Solid, MarkKind.None, Ink.Green) { LineWidth = 2.4 };
    private static readonly SeriesLook WhiskerLook = new(LineKind.Solid, MarkKind.None, Ink.Grey) { LineWidth = 1 };
    private static readonly SeriesLook LimitLook = new(LineKind.Dashed, MarkKind.None, Ink.Vermilion) { LineWidth = 1.8 };

    /// <summary>Decides what the chart shows.</summary>
    /// <param name="readings">The readings of the run, in any order.</param>
    /// <param name="measurand">The measurand's identifier, for example "haze".</param>
    /// <param name="limit">Its limit; <see langword="null"/> for none.</param>
    /// <exception cref="ChartRefusedException">There is no reading, or none gives the measurand.</exception>
    public static ChartModel Build(IReadOnlyList<ChartReading> readings, string measurand, RunLimit? limit)
    {
        ArgumentNullException.ThrowIfNull(readings);
        RunPoint[] run = Run(readings, measurand);
        MeasuredValue first = run[0].Value;
        RunRoll[] rolls = RunRoll.Split(run);
        RunScale scale = RunScale.Of(run);
        int failures = run.Count(point => limit?.Passes(point.Number) == false);

        (double low, double high) = Range(run, limit);
        var panel = new PanelModel
        {
            X = scale.Axis,
            Y = new AxisModel(Wording.Quantity(first), low, high),
            Series = Series(rolls, scale, limit),
            Bands = Bands(rolls, scale),
            BandsLabel = RunRoll.SharedLabel(rolls),
            ReferenceLines = LimitLines(limit, first),
            Annotations = Failures(rolls, scale, limit),
        };
        return new ChartModel
        {
            Title = limit is null ? $"{first.Name} of a run" : $"{first.Name} of a run against its limit",
            Subtitle = Subtitle(run, rolls, limit, failures),
            Panels = [panel],
            Notes = Notes(readings, run, measurand),
            Footer = [$"Method: {Wording.Bases(run.Select(point => point.Value))}.", Wording.Source([.. run.Select(point => point.Reading)])],
        };
    }

    private static RunPoint[] Run(IReadOnlyList<ChartReading> readings, string measurand)
    {
        if (readings.Count == 0)
        {
            throw new ChartRefusedException("There is no reading to show. Widen the filters, or name files.");
        }

        RunPoint[] run =
        [
            .. readings
                .Select(reading => (Reading: reading, Value: reading.Find(measurand)))
                .Where(pair => pair.Value is not null)
                .OrderBy(pair => pair.Reading.MeasuredAtUtc)
                .Select((pair, index) => new RunPoint(pair.Reading, pair.Value!, index)),
        ];
        return run.Length > 0
            ? run
            : throw new ChartRefusedException(
                $"None of the {readings.Count} readings gives \"{measurand}\". They give: "
                + string.Join(", ", readings.SelectMany(r => r.Evaluation.Values).Select(v => v.Measurand).Distinct()) + ".");
    }

    private static ImmutableArray<SeriesModel> Series(RunRoll[] rolls, RunScale scale, RunLimit? limit)
    {
        bool several = rolls.Length > 1;
        List<SeriesModel> series = [.. Whiskers(rolls, scale)];
        foreach ((RunRoll roll, int index) in rolls.Select((roll, index) => (roll, index)))
        {
            series.Add(new SeriesModel
            {
                Label = !several ? "reading" : index % 2 == 0 ? "reading, odd roll" : "reading, even roll",
                Look = RollLooks[index % 2],
                Points = [.. roll.Points.Where(p => limit?.Passes(p.Number) != false).Select(scale.Place)],
                InLegend = index < 2,
            });
        }

        if (several)
        {
            ChartPoint gap = new(double.NaN, double.NaN);
            series.Add(new SeriesModel
            {
                Label = "mean of a roll",
                Look = MeanLook,
                Points = [.. rolls.SelectMany(roll => new[] { new(scale.Start(roll), roll.Mean), new(scale.End(roll), roll.Mean), gap })],
            });
        }

        if (limit is not null)
        {
            series.Add(new SeriesModel
            {
                Label = Fails,
                Look = FailLook,
                Points = [.. rolls.SelectMany(roll => roll.Points).Where(p => !limit.Passes(p.Number)).Select(scale.Place)],
            });
        }

        return [.. series];
    }

    /// <summary>The expanded uncertainty of every reading that carries one, behind the marks.</summary>
    private static IEnumerable<SeriesModel> Whiskers(RunRoll[] rolls, RunScale scale)
    {
        RunPoint[] uncertain = [.. rolls.SelectMany(roll => roll.Points).Where(point => point.Value.Uncertainty is not null)];
        if (uncertain.Length > 0)
        {
            yield return new SeriesModel
            {
                Label = Coverage.LabelOf(uncertain.Select(point => point.Value.Uncertainty)),
                Look = WhiskerLook,
                Points = [],
                Whiskers = [.. uncertain.Select(point => new WhiskerModel(LineOrientation.Vertical, scale.Place(point).X, point.Low, point.High))],
            };
        }
    }

    private static ImmutableArray<BandModel> Bands(RunRoll[] rolls, RunScale scale) => rolls.Length == 1 && rolls[0].Name.Length == 0
        ? []
        : [.. rolls.Select((roll, i) => new BandModel(scale.BandStart(rolls, i), scale.BandEnd(rolls, i), roll.ShortName))];

    private static ImmutableArray<ReferenceLineModel> LimitLines(RunLimit? limit, MeasuredValue value)
    {
        string unit = value.Unit.Length > 0 ? " " + value.Unit : "";
        var lines = ImmutableArray.CreateBuilder<ReferenceLineModel>();
        if (limit?.Maximum is { } maximum)
        {
            lines.Add(new(LineOrientation.Horizontal, maximum, $"limit ≤ {Wording.Number(maximum)}{unit}", LimitLook));
        }

        if (limit?.Minimum is { } minimum)
        {
            lines.Add(new(LineOrientation.Horizontal, minimum, $"limit ≥ {Wording.Number(minimum)}{unit}", LimitLook));
        }

        return lines.ToImmutable();
    }

    /// <summary>One word for each roll with failing readings, on the far side of its worst, where no other mark is.</summary>
    private static ImmutableArray<AnnotationModel> Failures(RunRoll[] rolls, RunScale scale, RunLimit? limit)
    {
        if (limit is null)
        {
            return [];
        }

        var words = ImmutableArray.CreateBuilder<AnnotationModel>();
        foreach (RunRoll roll in rolls)
        {
            RunPoint[] above = [.. roll.Points.Where(p => p.Number > limit.Maximum)];
            RunPoint[] below = [.. roll.Points.Where(p => p.Number < limit.Minimum)];
            double middle = (scale.Start(roll) + scale.End(roll)) / 2;
            if (above.Length > 0)
            {
                words.Add(new(middle, above.Max(p => p.High), FailWord(above.Length, roll), AnnotationAnchor.Above) { Bold = true, Transparent = true });
            }

            if (below.Length > 0)
            {
                words.Add(new(middle, below.Min(p => p.Low), FailWord(below.Length, roll), AnnotationAnchor.Beneath) { Bold = true, Transparent = true });
            }
        }

        return words.ToImmutable();
    }

    private static string FailWord(int count, RunRoll roll) =>
        count == roll.Points.Length && count > 1 ? $"all {count} fail" : count == 1 ? "1 fails" : $"{count} fail";

    private static (double Low, double High) Range(RunPoint[] run, RunLimit? limit)
    {
        IEnumerable<double> values = run.SelectMany(point => new[] { point.Low, point.High });
        IEnumerable<double> limits = new[] { limit?.Minimum, limit?.Maximum }.OfType<double>();
        double leastSpan = Math.Max(LeastSpan, LeastSpanShare * Math.Abs(run.Average(point => point.Number)));
        (double low, double high) = AxisRange.Around(values.Concat(limits), leastSpan);
        double room = AxisRoomShare * (high - low);
        return (low - room, high + room);
    }

    private static string Subtitle(RunPoint[] run, RunRoll[] rolls, RunLimit? limit, int failures)
    {
        string[] lines = [.. run.Select(p => p.Reading.Measurement.Identification.Line).Where(name => name.Length > 0).Distinct()];
        string[] products = [.. run.Select(p => p.Reading.Product).Where(name => name.Length > 0).Distinct()];
        string[] parts =
        [
            lines.Length is > 0 and < 4 ? string.Join(", ", lines) : "",
            products.Length is > 0 and < 4 ? string.Join(", ", products) : "",
            rolls.Length > 1 ? $"{rolls.Length} rolls" : rolls[0].Name.Length > 0 ? $"roll {rolls[0].Name}" : "",
            run.Length == 1 ? "1 reading" : $"{run.Length} readings",
            limit is null ? "" : failures == 0 ? "all within the limit" : $"{failures} outside the limit",
        ];
        return string.Join(", ", parts.Where(part => part.Length > 0));
    }

    private static ImmutableArray<string> Notes(IReadOnlyList<ChartReading> readings, RunPoint[] run, string measurand)
    {
        ImmutableArray<string> caveats = ChartNotes.Of([.. run.Select(point => point.Reading)], measurand);
        int missing = readings.Count - run.Length;
        return missing == 0 ? caveats : [$"Note: {missing} of {readings.Count} readings do not give this measurand and are not shown.", .. caveats];
    }
}

using System.CommandLine;

using ClearView.Console.Commands;
using ClearView.V1;

using Timestamp = Google.Protobuf.WellKnownTypes.Timestamp;

namespace ClearView.Console.Options;

/// <summary>The options that say what a control chart is: kind, subgroups, signals, phases.</summary>
internal sealed class ControlChartOptions
{
    private const string Patterns = "beyond-limits, run, trend, alternation, two-of-three, four-of-five, hugging, avoiding, spread, ewma, sums";

    private readonly CheckedOption<ControlChartKind[]> _kind = new(
        "--kind", "KIND",
        "Kind of chart: individuals (with moving range), averages-range, averages-deviation (subgroups), ewma (slow drifts) or cusum (small shifts).",
        text => text switch
        {
            "individuals" => [ControlChartKind.Individuals],
            "averages-range" => [ControlChartKind.AveragesWithRange],
            "averages-deviation" => [ControlChartKind.AveragesWithStandardDeviation],
            "ewma" => [ControlChartKind.Ewma],
            "cusum" => [ControlChartKind.Cusum],
            _ => null,
        },
        "write individuals, averages-range, averages-deviation, ewma or cusum");

    private readonly CheckedOption<Subgrouping> _subgroup = new(
        "--subgroup", "NUMBER|roll|lot", "Readings per subgroup in the order of measurement, or a subgroup for each roll or lot; required for averages.",
        ReadSubgroup, "write a whole number from 2 to 1000, roll or lot");

    private readonly CheckedOption<ControlPattern[]> _patterns = new(
        "--patterns", "NAMES", $"Patterns that raise a signal, separated by commas: {Patterns}. [default: beyond-limits, run, trend and spread (ISO 7870-2); ewma (ISO 7870-6); sums (ISO 7870-4)]",
        ReadPatterns, $"write patterns separated by commas, each once: {Patterns}");

    private readonly CheckedOption<double[]> _run = NumberOptions.Count("--run-length", "Points of a run on one side; needs --patterns. [default: 7]", 5, 15);
    private readonly CheckedOption<double[]> _trend = NumberOptions.Count("--trend-length", "Points of a trend; needs --patterns. [default: 7]", 5, 15);

    private readonly CheckedOption<double[]> _ewma = new(
        "--ewma", "WEIGHT,L", "Weight of the newest point and half width of the limits of an EWMA chart. [default: 0.2,3]",
        text => Numerals.ReadList(text, ',', 2) is [> 0 and <= 1, > 0] given ? given : null, "write WEIGHT,L with a weight above 0 up to 1 and L above 0, for example 0.2,3");

    private readonly CheckedOption<double[]> _cusum = new(
        "--cusum", "K,H", "Half the shift to find and the decision interval of a CUSUM chart, in standard deviations. [default: 0.5,5]",
        text => Numerals.ReadList(text, ',', 2) is [>= 0, > 0] given ? given : null, "write K,H with K of 0 or more and H above 0, for example 0.5,5");

    private readonly CheckedOption<double[]> _target = new(
        "--target", "NUMBER", "What the sums of a CUSUM chart are taken from, in the measurand's unit. [default: the centre line]",
        text => Numerals.Read(text) is { } value ? [value] : null, "write a number, for example 1.5");

    private readonly CheckedOption<PhaseText> _baseline;
    private readonly CheckedOption<PhaseText> _known = new(
        "--known", "CENTRE,SIGMA", "Known centre line and standard deviation within subgroups, in the measurand's unit, instead of a baseline.",
        text => PhaseText.Values(FirstPhase, null, text), "write CENTRE,SIGMA with SIGMA above 0, for example 1.6,0.08");

    private readonly CheckedOption<PhaseText> _phases = new(
        "--phase", "NAME@FROM=LIMITS",
        "A later phase with limits of its own, for example \"new die@2026-03-09=baseline 2026-03-09..2026-03-11\" or "
            + "\"new die@2026-03-09=known 1.5,0.08\"; repeatable.",
        PhaseText.Later, "write \"NAME@FROM=baseline FROM..TO\" or \"NAME@FROM=known CENTRE,SIGMA\" with times such as 2026-03-09", repeatable: true);

    private const string FirstPhase = "first phase";

    /// <summary>Creates the options.</summary>
    /// <param name="ofFile">Whether the chart is drawn over a file, whose readings can be counted.</param>
    public ControlChartOptions(bool ofFile) => _baseline = new(
        "--baseline", "FROM..TO",
        ofFile
            ? "Readings that the limits are taken from: their numbers in the order of measurement, 1..25, or times, 2026-03-02..2026-03-05 (the end not included)."
            : "Time of the readings that the limits are taken from, the end not included, for example 2026-03-02..2026-03-05.",
        text => PhaseText.Baseline(FirstPhase, null, text) is { } phase && (ofFile || phase.Positions is null) ? phase : null,
        ofFile ? "write FIRST..LAST in numbers, 1..25, or FROM..TO in times, 2026-03-02..2026-03-05" : "write FROM..TO in times, for example 2026-03-02..2026-03-05");

    /// <summary>Whether subgroups follow a label, and which.</summary>
    public SubgroupLabel Label(ParseResult parsed) =>
        _subgroup.Resolve(parsed) is { ByCase: Subgrouping.ByOneofCase.Label } subgrouping ? subgrouping.Label : SubgroupLabel.Unspecified;

    /// <summary>Adds the options to a command.</summary>
    public void AddTo(DocumentedCommand command)
    {
        _kind.Option.Required = true;
        command.BeginGroup("Chart", _kind.Option);
        foreach (var option in (Option[])[_kind.Option, _subgroup.Option, _ewma.Option, _cusum.Option, _target.Option])
        {
            command.Add(option);
        }
        command.BeginGroup("Limits", _baseline.Option);
        foreach (var option in (Option[])[_baseline.Option, _known.Option, _phases.Option])
        {
            command.Add(option);
        }
        command.BeginGroup("Signals", _patterns.Option);
        foreach (var option in (Option[])[_patterns.Option, _run.Option, _trend.Option])
        {
            command.Add(option);
        }
    }

    /// <summary>The chart.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="series">The series that it watches.</param>
    /// <param name="values">The values that numbers of readings count; <see langword="null"/> where there are none.</param>
    /// <exception cref="UsageException">Options do not go together.</exception>
    public ControlChart Resolve(ParseResult parsed, SeriesFilter series, GivenSeries? values)
    {
        var chart = new ControlChart { Series = series, Kind = _kind.Resolve(parsed)![0], Subgrouping = _subgroup.Resolve(parsed) };
        var isOfAverages = chart.Kind is ControlChartKind.AveragesWithRange or ControlChartKind.AveragesWithStandardDeviation;
        if (isOfAverages && chart.Subgrouping is null)
        {
            throw new UsageException("a chart of averages needs subgroups: give --subgroup with a number of readings, roll or lot");
        }
        if (chart.Kind == ControlChartKind.Individuals && chart.Subgrouping is not null)
        {
            throw new UsageException("a chart of individuals has no subgroups; leave --subgroup out, or choose averages-range");
        }
        RequireKind(_ewma.Resolve(parsed), "--ewma", chart, ControlChartKind.Ewma, given => chart.Ewma = new EwmaSettings { Weight = given[0], LimitWidth = given[1] });
        RequireKind(_cusum.Resolve(parsed), "--cusum", chart, ControlChartKind.Cusum, given => chart.Cusum = new CusumSettings { Slack = given[0], DecisionInterval = given[1] });
        RequireKind(_target.Resolve(parsed), "--target", chart, ControlChartKind.Cusum, given =>
        {
            chart.Cusum ??= new CusumSettings { Slack = 0.5, DecisionInterval = 5 };
            chart.Cusum.Target = given[0];
        });
        chart.RunRules = Rules(parsed);
        var (baseline, known) = (_baseline.Resolve(parsed), _known.Resolve(parsed));
        var first = (baseline, known) switch
        {
            ({ } one, null) => one,
            (null, { } one) => one,
            (null, null) => throw new UsageException("there are no limits: give --baseline FROM..TO, or --known CENTRE,SIGMA"),
            _ => throw new UsageException("--baseline and --known both give the first limits; give one of them"),
        };
        chart.Phases.AddRange(_phases.ResolveAll(parsed).OrderBy(phase => phase.From!.ToDateTime()).Prepend(first).Select(phase => Phase(phase, values)));
        return chart;
    }

    private RunRules? Rules(ParseResult parsed)
    {
        var (run, trend) = (_run.Resolve(parsed), _trend.Resolve(parsed));
        if (_patterns.Resolve(parsed) is not { } patterns)
        {
            return run is null && trend is null ? null : throw new UsageException("--run-length and --trend-length need --patterns");
        }
        return new RunRules { Patterns = { patterns }, RunLengthCount = (uint)(run?[0] ?? 0), TrendLengthCount = (uint)(trend?[0] ?? 0) };
    }

    private static void RequireKind(double[]? given, string option, ControlChart chart, ControlChartKind kind, Action<double[]> apply)
    {
        if (given is null)
        {
            return;
        }
        if (chart.Kind != kind)
        {
            throw new UsageException($"{option} needs --kind {(kind == ControlChartKind.Ewma ? "ewma" : "cusum")}");
        }
        apply(given);
    }

    private static ControlPhase Phase(PhaseText text, GivenSeries? values)
    {
        var phase = new ControlPhase { Name = text.Name, MeasuredFrom = text.From };
        if (text.Known is { } known)
        {
            phase.Limits = new FrozenLimits { Centre = known.Centre, StandardDeviation = known.StandardDeviation };
        }
        else
        {
            phase.Baseline = text.Span ?? Span(text.Positions!.Value, values);
        }
        return phase;
    }

    // The contract knows a baseline by its time; without times values count as measured one second apart, from the Unix epoch on.
    private static MeasuredSpan Span((int First, int Last) positions, GivenSeries? values)
    {
        if (values is null)
        {
            throw new UsageException("numbers of readings need a file to count them in; write times, for example 2026-03-02..2026-03-05");
        }
        if (positions.Last > values.Value.Count)
        {
            throw new UsageException(FormattableString.Invariant($"the baseline {positions.First}..{positions.Last} reaches beyond the {values.Value.Count} readings of the file"));
        }
        var (from, last) = (Time(positions.First - 1), Time(positions.Last - 1));
        return new MeasuredSpan
        {
            MeasuredFrom = Timestamp.FromDateTime(from),
            MeasuredBefore = Timestamp.FromDateTime(last.AddTicks(1)),
        };

        DateTime Time(int position) => values.MeasuredAt.Count > 0 ? values.MeasuredAt[position].ToDateTime() : DateTime.UnixEpoch.AddSeconds(position);
    }

    private static Subgrouping? ReadSubgroup(string text) => text switch
    {
        "roll" => new Subgrouping { Label = SubgroupLabel.Roll },
        "lot" => new Subgrouping { Label = SubgroupLabel.Lot },
        _ when Numerals.Read(text) is >= 2 and <= 1000 and { } count && count == Math.Floor(count) => new Subgrouping { ConsecutiveCount = (uint)count },
        _ => null,
    };

    private static ControlPattern[]? ReadPatterns(string text)
    {
        var patterns = new List<ControlPattern>();
        foreach (var word in text.Split(',').Select(word => word.Trim()))
        {
            ControlPattern[]? meant = word switch
            {
                "beyond-limits" => [ControlPattern.BeyondLimits],
                "run" => [ControlPattern.RunOnOneSide],
                "trend" => [ControlPattern.Trend],
                "alternation" => [ControlPattern.Alternation],
                "two-of-three" => [ControlPattern.TwoOfThreeNearLimit],
                "four-of-five" => [ControlPattern.FourOfFiveOffCentre],
                "hugging" => [ControlPattern.HuggingCentre],
                "avoiding" => [ControlPattern.AvoidingCentre],
                "spread" => [ControlPattern.SpreadBeyondLimits],
                "ewma" => [ControlPattern.EwmaBeyondLimits],
                "sums" => [ControlPattern.SumAboveTarget, ControlPattern.SumBelowTarget],
                _ => null,
            };
            if (meant is null || patterns.Exists(meant.Contains))
            {
                return null;
            }
            patterns.AddRange(meant);
        }
        return [.. patterns];
    }
}

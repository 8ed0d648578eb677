using ClearView.Contract.Validation;
using ClearView.Optics.Evaluations;
using ClearView.Quality.Rolls;
using ClearView.Quality.Series;

namespace ClearView.Contract.Studies;

/// <summary>Map of a roll, or of a longer piece of web, from request to answer.</summary>
/// <remarks>The one path that the server and the offline commands of the console share. Thread-safe, stateless, two passes over the readings.</remarks>
public static class RollStudy
{
    /// <summary>What it needs of a series beside the values.</summary>
    public const SeriesParts Parts = SeriesParts.Places;

    private const int MostLanes = 1000;
    private const int MostBlocks = 10_000;

    /// <summary>Answers a request that brings its readings and limits along.</summary>
    /// <param name="request">The request; one for stored readings or limits is refused.</param>
    /// <returns>The map, every field at fault, or that no reading has a place.</returns>
    public static StudyOutcome<V1.MapRollResponse> Map(V1.MapRollRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        var violations = new Violations();
        SeriesQuestion? question = Read(request, violations);
        SeriesSources.RefuseStored(question, request.SpecificationName, violations);
        return violations.IsEmpty
            ? Map(question!.Measurand, question.Given!, request.Limits, request.Options)
            : StudyOutcome<V1.MapRollResponse>.Refused(violations.ToImmutable());
    }

    /// <summary>Checks a request without looking at what is stored.</summary>
    /// <param name="request">The request as it came.</param>
    /// <param name="violations">Takes every field at fault.</param>
    /// <returns>What is asked; meaningful only where no violation was added.</returns>
    public static SeriesQuestion? Read(V1.MapRollRequest request, Violations violations)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(violations);
        SeriesQuestion? question = SeriesSources.Read(request.Stored, request.Given, Parts, violations);
        SeriesSources.CheckLimits(request.Limits, request.SpecificationName, required: false, violations);
        ReadOptions(request.Options ?? new V1.RollOptions(), violations);
        return question;
    }

    /// <summary>Maps readings that are at hand.</summary>
    /// <param name="measurand">What was measured.</param>
    /// <param name="series">The readings with their places, in any order.</param>
    /// <param name="limits">The limits; <see langword="null"/> for none.</param>
    /// <param name="options">How; the defaults where <see langword="null"/>.</param>
    /// <returns>The map, every field of limits and options at fault, or that no reading has a place.</returns>
    /// <exception cref="ArgumentException">The series keeps no places.</exception>
    public static StudyOutcome<V1.MapRollResponse> Map(
        Measurand measurand, SeriesColumns series, V1.SeriesLimits? limits, V1.RollOptions? options)
    {
        ArgumentNullException.ThrowIfNull(measurand);
        ArgumentNullException.ThrowIfNull(series);
        if ((series.Parts & Parts) != Parts)
        {
            throw new ArgumentException("The series keeps no places.", nameof(series));
        }

        options ??= new V1.RollOptions();
        var violations = new Violations();
        if (limits is not null)
        {
            SeriesLimitsRules.Check(limits, "limits", violations);
        }

        RollOptions how = ReadOptions(options, violations);
        if (!violations.IsEmpty)
        {
            return StudyOutcome<V1.MapRollResponse>.Refused(violations.ToImmutable());
        }

        if (RollGridChoice.For(series.AcrossMm, series.AlongM, (int)options.LaneCount, (int)options.BlockCount) is not { } grid)
        {
            return StudyOutcome<V1.MapRollResponse>.Lacking(series.Count == 0
                ? "There are no readings to map."
                : FormattableString.Invariant($"None of the {series.Count} readings has a place both across and along the web."));
        }

        RollReport report = Accumulate(grid, LimitsOf(limits, options), series).Report(how);
        return StudyOutcome<V1.MapRollResponse>.Accepted(new V1.MapRollResponse { RollMap = RollWriter.Write(measurand, limits, report, how) });
    }

    private static RollLimits? LimitsOf(V1.SeriesLimits? limits, V1.RollOptions options) => limits is null
        ? null
        : new RollLimits(
            limits.HasLower ? limits.Lower : null, limits.HasUpper ? limits.Upper : null, options.LargestShareOutsidePercent / 100);

    // A place that is missing is NaN, which lies off every grid: the report counts it as such.
    private static RollAccumulator Accumulate(RollGrid grid, RollLimits? limits, SeriesColumns series)
    {
        var accumulator = new RollAccumulator(grid, limits);
        ReadOnlySpan<double> values = series.Values;
        ReadOnlySpan<double> acrossMm = series.AcrossMm;
        ReadOnlySpan<double> alongM = series.AlongM;
        for (int i = 0; i < values.Length; i++)
        {
            accumulator.Add(new RollReading(acrossMm[i], alongM[i], values[i]));
        }

        return accumulator;
    }

    private static RollOptions ReadOptions(V1.RollOptions options, Violations violations)
    {
        if (options.LaneCount > MostLanes)
        {
            violations.Add("options.lane_count", $"was {options.LaneCount}; expected 1 to {MostLanes}, or 0 to have it chosen.");
        }

        if (options.BlockCount > MostBlocks)
        {
            violations.Add("options.block_count", $"was {options.BlockCount}; expected 1 to {MostBlocks}, or 0 to have it chosen.");
        }
        else if (options.LaneCount <= MostLanes && (long)options.LaneCount * options.BlockCount > RollGridChoice.MostCells)
        {
            violations.Add(
                "options.block_count",
                $"was {options.BlockCount}, with {options.LaneCount} lanes {(long)options.LaneCount * options.BlockCount} cells; expected {RollGridChoice.MostCells} cells at most.");
        }

        if (!(options.LeastStreakDeviation >= 0) || !FieldRules.IsFigure(options.LeastStreakDeviation))
        {
            violations.Add("options.least_streak_deviation", $"was {options.LeastStreakDeviation}; expected a finite number, 0 or more.");
        }

        violations.RequireWithin("options.largest_share_outside_percent", options.LargestShareOutsidePercent, 0, 100, "%");
        return new RollOptions
        {
            ConfidenceLevel = violations.ReadLevel("options.confidence_percent", options.ConfidencePercent, PercentRules.DefaultConfidence),
            StreakLevel = violations.ReadRisk("options.streak_level_percent", options.StreakLevelPercent, 1),
            LeastStreakDeviation = options.LeastStreakDeviation,
        };
    }
}

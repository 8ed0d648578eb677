using System.Collections.Immutable;

using ClearView.Contract.Validation;
using ClearView.Optics.Evaluations;
using ClearView.Quality.Lots;
using ClearView.V1;

using LotComparison = ClearView.Quality.Lots.LotComparison;
using LotComparisonOptions = ClearView.Quality.Lots.LotComparisonOptions;

namespace ClearView.Contract.Studies;

/// <summary>Comparison of lots, from request to answer.</summary>
/// <remarks>The one path that the server and the offline commands of the console share. Thread-safe, stateless.</remarks>
public static class LotStudy
{
    /// <summary>Answers a request that brings its values along.</summary>
    /// <param name="request">The request; one for stored lots is refused.</param>
    /// <param name="cancellationToken">Stops the work between two measurands.</param>
    /// <returns>The comparisons, or every field at fault.</returns>
    /// <exception cref="OperationCanceledException">The token was cancelled.</exception>
    public static StudyOutcome<CompareLotsResponse> Compare(CompareLotsRequest request, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        var violations = new Violations();
        LotQuestion? question = Read(request, violations);
        if (question is { Given: null })
        {
            violations.Add("stored", $"was given; stored lots need a server. Expected given.");
        }

        return violations.IsEmpty
            ? Compare(question!.Given!.Value, request.Options, cancellationToken)
            : StudyOutcome<CompareLotsResponse>.Refused(violations.ToImmutable());
    }

    /// <summary>Checks a request without looking at what is stored.</summary>
    /// <param name="request">The request as it came.</param>
    /// <param name="violations">Takes every field at fault.</param>
    /// <returns>What is asked; meaningful only where no violation was added.</returns>
    public static LotQuestion? Read(CompareLotsRequest request, Violations violations)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(violations);
        LotQuestion? question = null;
        if (request.Given is { } given)
        {
            ImmutableArray<MeasuredLots> tables = LotTableReader.Read(given, "given", violations);
            question = new LotQuestion([.. tables.Select(table => table.Measurand)], tables);
        }
        else if (request.Stored is { } stored)
        {
            question = new LotQuestion(LotTableReader.Check(stored, "stored", violations), null);
        }
        else
        {
            violations.Add("stored", $"was missing, and given too; expected one of them.");
        }

        // Where a table is at fault, its measurand may be among the margins all the same.
        IEnumerable<string> asked = request.Given?.Tables.Select(table => table.Measurand) ?? request.Stored?.Measurands ?? [];
        LotOptionsReader.Read(request.Options, [.. asked.Distinct().Select(Find).OfType<Measurand>()], violations);
        return question;
    }

    /// <summary>Compares lots whose values are at hand.</summary>
    /// <param name="tables">The values, one table per measurand, each measurand once.</param>
    /// <param name="options">How; the defaults where <see langword="null"/>.</param>
    /// <param name="cancellationToken">Stops the work between two measurands.</param>
    /// <returns>The comparisons, or every field of the options at fault.</returns>
    /// <exception cref="LotException">A table has fewer than two lots, or two of the same name.</exception>
    /// <exception cref="OperationCanceledException">The token was cancelled.</exception>
    public static StudyOutcome<CompareLotsResponse> Compare(
        IReadOnlyList<MeasuredLots> tables, V1.LotComparisonOptions? options, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(tables);
        var violations = new Violations();
        ImmutableArray<LotComparisonOptions> perTable = LotOptionsReader.Read(options, [.. tables.Select(table => table.Measurand)], violations);
        if (!violations.IsEmpty)
        {
            return StudyOutcome<CompareLotsResponse>.Refused(violations.ToImmutable());
        }

        var response = new CompareLotsResponse();
        foreach ((MeasuredLots table, LotComparisonOptions how) in tables.Zip(perTable))
        {
            cancellationToken.ThrowIfCancellationRequested();
            LotComparisonOptions known = how with { ExpandedUncertainty = how.ExpandedUncertainty ?? table.InstrumentExpandedUncertainty };
            if (Compare(table, known) is not { } comparison)
            {
                violations.Add(
                    "options.power_percent",
                    $"was {100 * how.Power}, with a confidence of {100 * how.Confidence} %: more than {Quality.Sampling.SampleSize.Largest} specimens would be needed; expected less of both.");
                return StudyOutcome<CompareLotsResponse>.Refused(violations.ToImmutable());
            }

            response.Comparisons.Add(LotWriter.Write(comparison, table.Lots));
        }

        return StudyOutcome<CompareLotsResponse>.Accepted(response);
    }

    // Every argument was checked; what is left out of range is a number of specimens past all planning.
    private static LotComparison? Compare(MeasuredLots table, LotComparisonOptions options)
    {
        try
        {
            return LotComparison.Of(table.Measurand, table.Lots, options);
        }
        catch (ArgumentOutOfRangeException)
        {
            return null;
        }
    }

    private static Measurand? Find(string id) => Measurand.TryFind(id, out Measurand? measurand) ? measurand : null;
}

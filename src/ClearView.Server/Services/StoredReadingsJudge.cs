using System.Runtime.CompilerServices;

using ClearView.Contract;
using ClearView.Contract.Decisions;
using ClearView.Records.Model;
using ClearView.Server.Mapping;
using ClearView.V1;

namespace ClearView.Server.Services;

/// <summary>Judges stored readings again, one by one or in groups, beside the verdict that each was stored with.</summary>
/// <remarks>Memory holds a page of readings, or one group, and the identifiers of the groups.</remarks>
internal sealed class StoredReadingsJudge(IReadingStore store, EvaluateMeasurement evaluate, TimeProvider clock)
{
    /// <summary>Judges the readings of a query.</summary>
    public async IAsyncEnumerable<JudgeReadingsResponse> JudgeAsync(
        ReadingQuery query, JudgementGroup group, ResolvedSpecification specification, [EnumeratorCancellation] CancellationToken cancellationToken)
    {
        if (group == JudgementGroup.Unspecified)
        {
            await foreach (var stored in store.ReadAllAsync(query, cancellationToken).ConfigureAwait(false))
            {
                yield return JudgeOne(ReadingMapper.ToReading(stored), specification);
            }

            yield break;
        }

        foreach (var (name, ids) in await GroupAsync(query, group, cancellationToken).ConfigureAwait(false))
        {
            yield return await JudgeGroupAsync(name, ids, specification, cancellationToken).ConfigureAwait(false);
        }
    }

    private JudgeReadingsResponse JudgeOne(Reading reading, ResolvedSpecification specification)
    {
        var again = !specification.Method.Equals(reading.Evaluation.Method);
        var outcome = again ? evaluate(reading.Measurement, specification.MethodChoice, omitSpectra: true) : null;
        return new JudgeReadingsResponse
        {
            ReadingIds = { reading.ReadingId },
            MeasuredAt = reading.Measurement.MeasuredAt,
            Specimen = reading.Measurement.Identification.Specimen,
            StoredVerdict = reading.Verdict,
            EvaluatedAgain = again,
            Verdict = outcome is { IsAccepted: false }
                ? NotDecided(specification, $"the scans cannot be evaluated under the method: {outcome.Violations[0].Field} {outcome.Violations[0].Description}")
                : ReadingJudge.Judge(specification, reading.Measurement, outcome?.Evaluation ?? reading.Evaluation),
        };
    }

    private async Task<JudgeReadingsResponse> JudgeGroupAsync(
        string name, List<Guid> ids, ResolvedSpecification specification, CancellationToken cancellationToken)
    {
        var response = new JudgeReadingsResponse { GroupName = name, ReadingIds = { ids.Select(ReadingIds.Write) } };

        // Of a group that is too large only the first is shown.
        var isTooLarge = ids.Count > SpecimensEvaluator.MostMeasurements;
        List<Reading> readings = [];
        foreach (var id in isTooLarge ? ids.Take(1) : ids)
        {
            readings.Add(ReadingMapper.ToReading(await store.RequireAsync(id, cancellationToken).ConfigureAwait(false)));
        }

        response.MeasuredAt = readings[0].Measurement.MeasuredAt;
        response.Specimen = readings[0].Measurement.Identification.Specimen;
        response.StoredVerdict = readings.Count == 1 ? readings[0].Verdict : null;
        response.EvaluatedAgain = readings.Exists(reading => !specification.Method.Equals(reading.Evaluation.Method));
        if (isTooLarge)
        {
            response.Verdict = NotDecided(
                specification, FormattableString.Invariant($"{ids.Count} readings; a mean is taken over {SpecimensEvaluator.MostMeasurements} at most"));
            return response;
        }

        var outcome = SpecimensJudge.Judge([.. readings.Select(reading => reading.Measurement)], specification, clock, cancellationToken);
        response.Verdict = outcome.IsAccepted
            ? outcome.Response.Verdict
            : NotDecided(specification, $"the scans cannot be evaluated under the method: {outcome.Violations[0].Field} {outcome.Violations[0].Description}");
        return response;
    }

    private static Verdict NotDecided(ResolvedSpecification specification, string reason) => new()
    {
        SpecificationName = specification.Name?.Clone(),
        DecisionRule = specification.Wire.DecisionRule.Clone(),
        Outcome = VerdictOutcome.NotDecided,
        Reasons = { reason },
    };

    // In the order of the first reading of each group.
    private async Task<List<(string Name, List<Guid> Ids)>> GroupAsync(ReadingQuery query, JudgementGroup group, CancellationToken cancellationToken)
    {
        List<(string Name, List<Guid> Ids)> groups = [];
        Dictionary<string, List<Guid>> byName = new(StringComparer.Ordinal);
        await foreach (var stored in store.ReadAllAsync(query, cancellationToken).ConfigureAwait(false))
        {
            var name = group == JudgementGroup.Lot ? stored.Entry.Lot : stored.Entry.Roll;
            if (!byName.TryGetValue(name, out var ids))
            {
                ids = [];
                byName.Add(name, ids);
                groups.Add((name, ids));
            }

            ids.Add(stored.Entry.Id);
        }

        return groups;
    }
}

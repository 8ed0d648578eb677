using System.Collections.Immutable;
using System.Globalization;

using ClearView.Contract.Studies;
using ClearView.Contract.Validation;
using ClearView.Optics.Evaluations;
using ClearView.Quality.Series;
using ClearView.Records.Model;
using ClearView.Server.Mapping;
using ClearView.V1;

using Grpc.Core;

using Evaluation = ClearView.V1.Evaluation;

namespace ClearView.Server.Services;

/// <summary>Reads from the stores what a study rests on.</summary>
internal sealed class StudyData(ISeriesStore series, IReadingStore readings, SpecificationResolver specifications)
{
    // As many specimens as a lot may have where the caller brings them along.
    private const int MostReadingsOfALot = 10_000;

    /// <summary>A stored series, with no more than a study needs of it.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    public Task<SeriesColumns> ReadSeriesAsync(StoredSeries stored, SeriesParts parts, CancellationToken cancellationToken) =>
        series.ReadColumnsAsync(SeriesQueries.Read(stored), parts, cancellationToken);

    /// <summary>The limits of a stored specification on a measurand.</summary>
    /// <exception cref="RpcException">It has none.</exception>
    /// <exception cref="Faults.DocumentNotFoundException">No specification has the name or the version.</exception>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    public async Task<SeriesLimits> ReadLimitsAsync(SpecificationName name, Measurand measurand, CancellationToken cancellationToken)
    {
        var violations = new Violations();
        var specification = await specifications.FindAsync(name, violations, cancellationToken).ConfigureAwait(false);
        FieldFaults.ThrowIfAny(violations);
        var limits = SpecificationLimits.Of(specification!.Wire, measurand, "specification_name", violations);
        FieldFaults.ThrowIfAny(violations);
        return limits!;
    }

    /// <summary>Stored lots, their specimens in the order of measurement.</summary>
    /// <exception cref="RpcException">A lot has no reading with a measurand, or more than can be compared.</exception>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    public async Task<ImmutableArray<MeasuredLots>> ReadLotsAsync(StoredLots stored, ImmutableArray<Measurand> measurands, CancellationToken cancellationToken)
    {
        var collector = new LotCollector(measurands, stored.Lots);
        foreach (var lot in stored.Lots)
        {
            await ReadLotAsync(SeriesQueries.Read(stored, lot), lot, collector, cancellationToken).ConfigureAwait(false);
        }

        return collector.Lacking.IsEmpty ? collector.ToLots() : throw Lacking(string.Join(" ", collector.Lacking));
    }

    /// <summary>The exception that says what readings lack for a study.</summary>
    public static RpcException Lacking(string words) => new(new Status(StatusCode.FailedPrecondition, words));

    private async Task ReadLotAsync(ReadingQuery query, string lot, LotCollector collector, CancellationToken cancellationToken)
    {
        var count = 0;
        await foreach (var reading in readings.ReadAllAsync(query, cancellationToken).ConfigureAwait(false))
        {
            if (++count > MostReadingsOfALot)
            {
                throw Lacking(string.Create(
                    CultureInfo.InvariantCulture, $"Lot {lot} has more than {MostReadingsOfALot} stored readings; narrow it down by line, product or span."));
            }

            collector.Add(lot, reading.Entry.Specimen, Evaluation.Parser.ParseFrom(reading.Entry.Evaluation.Span));
        }
    }
}

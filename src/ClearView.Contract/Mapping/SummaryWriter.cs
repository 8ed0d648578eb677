using ClearView.Optics.Evaluations;

namespace ClearView.Contract.Mapping;

/// <summary>Writes summaries over several specimens to the wire.</summary>
internal static class SummaryWriter
{
    public static V1.SpecimenMean Write(SpecimenMean mean)
    {
        var wire = new V1.SpecimenMean
        {
            Measurand = mean.Measurand.Id,
            Name = mean.Measurand.Name,
            Symbol = mean.Measurand.Symbol,
            Unit = mean.Measurand.Unit,
            Mean = mean.Mean,
            SpecimenCount = (uint)mean.Count,
            Uncertainty = mean.Uncertainty is { } uncertainty ? UncertaintyWriter.Write(uncertainty) : null,
        };
        if (double.IsFinite(mean.StandardDeviation))
        {
            wire.StandardDeviation = mean.StandardDeviation;
        }

        return wire;
    }

    /// <summary>Each measurand over each region, measurands in the order of the registry, regions in order of first appearance.</summary>
    public static IEnumerable<V1.WallSummary> WriteWalls(
        IReadOnlyList<V1.Measurement> measurements, IReadOnlyList<EvaluatedMeasurement> evaluated)
    {
        var places = measurements.Zip(evaluated).Where(place => place.First.Identification.Wall is not null).ToArray();
        return Measurand.All.Where(measurand => !measurand.IsAngle).SelectMany(measurand => Write(measurand, places));
    }

    private static IEnumerable<V1.WallSummary> Write(
        Measurand measurand, (V1.Measurement Measurement, EvaluatedMeasurement Evaluated)[] places)
    {
        // The library keeps regions in words; here they travel by their numbers.
        var readings = places
            .Select(place => (place.Measurement, Value: measurand.Read(place.Evaluated.Evaluation)))
            .Where(reading => reading.Value is not null)
            .Select(reading => (
                Region: reading.Measurement.Identification.Wall.Region.ToString(),
                reading.Value!.Value,
                ThicknessUm: reading.Measurement.Conditions.HasThicknessUm ? reading.Measurement.Conditions.ThicknessUm : (double?)null));
        return WallSummary.Of(readings).Select(summary => Write(measurand, summary));
    }

    private static V1.WallSummary Write(Measurand measurand, WallSummary summary)
    {
        var wire = new V1.WallSummary
        {
            Measurand = measurand.Id,
            Region = Enum.Parse<V1.WallRegion>(summary.Region),
            Minimum = summary.Minimum,
            Mean = summary.Mean,
            Maximum = summary.Maximum,
            PlaceCount = (uint)summary.Count,
        };
        if (summary is { ThinnestUm: { } thinnest, AtThinnest: { } value })
        {
            wire.ThinnestUm = thinnest;
            wire.AtThinnest = value;
        }

        return wire;
    }
}

using ClearView.V1;

namespace ClearView.Plotting.Charts;

/// <summary>A measurement with its evaluation, stored or from a file: what every chart is made of.</summary>
/// <param name="Measurement">The measurement.</param>
/// <param name="Evaluation">Its evaluation.</param>
/// <param name="Source">Where it comes from, in words, for example "stored reading 0195…" or a file's name.</param>
public sealed record ChartReading(Measurement Measurement, Evaluation Evaluation, string Source)
{
    internal string Specimen => Measurement.Identification?.Specimen ?? "";

    internal string Product => Measurement.Identification?.Product ?? "";

    internal string Roll => Measurement.Identification?.Roll ?? "";

    internal DateTime MeasuredAtUtc => Measurement.MeasuredAt?.ToDateTime() ?? DateTime.MinValue;

    /// <summary>A stored reading.</summary>
    /// <param name="reading">The reading, listed with its spectra.</param>
    /// <exception cref="ArgumentException">The reading lacks its measurement or its evaluation.</exception>
    public static ChartReading FromStored(Reading reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        return reading is { Measurement: { } measurement, Evaluation: { } evaluation }
            ? new ChartReading(measurement, evaluation, $"stored reading {reading.ReadingId}")
            : throw new ArgumentException("The reading lacks its measurement or its evaluation.", nameof(reading));
    }

    /// <summary>The value of a measurand; <see langword="null"/> where the evaluation does not give it.</summary>
    internal MeasuredValue? Find(string measurand) =>
        Evaluation.Values.FirstOrDefault(value => value.Measurand == measurand);
}

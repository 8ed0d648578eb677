namespace ClearView.Contract.Validation;

/// <summary>The paths of a measurement and of its parts in a request, put together once for however many requests.</summary>
/// <remarks>Immutable, thread-safe.</remarks>
internal sealed class MeasurementPath
{
    private static readonly MeasurementPath[] Positions = [.. Enumerable
        .Range(0, SpecimensEvaluator.MostMeasurements)
        .Select(position => new MeasurementPath(FormattableString.Invariant($"measurements[{position}]")))];

    private MeasurementPath(string whole)
    {
        Whole = whole;
        Conditions = $"{whole}.conditions";
        Identification = $"{whole}.identification";
        MeasuredAt = $"{whole}.measured_at";
        Scans = $"{whole}.scans";
        Sphere = $"{Scans}.sphere";
        Normalised = $"{Scans}.normalised";
        Hazemeter = $"{Scans}.hazemeter";
    }

    /// <summary>The one measurement of a request.</summary>
    public static MeasurementPath Single { get; } = new("measurement");

    /// <summary>The measurement.</summary>
    public string Whole { get; }

    /// <summary>Its conditions.</summary>
    public string Conditions { get; }

    /// <summary>Its identification.</summary>
    public string Identification { get; }

    /// <summary>Its time.</summary>
    public string MeasuredAt { get; }

    /// <summary>Its scans.</summary>
    public string Scans { get; }

    /// <summary>Its scans where they are readings of a sphere.</summary>
    public string Sphere { get; }

    /// <summary>Its scans where they are normalised already.</summary>
    public string Normalised { get; }

    /// <summary>Its scans where they are readings of a hazemeter.</summary>
    public string Hazemeter { get; }

    /// <summary>A measurement among several.</summary>
    /// <param name="position">Its position, from 0, below <see cref="SpecimensEvaluator.MostMeasurements"/>.</param>
    public static MeasurementPath At(int position) => Positions[position];
}

namespace ClearView.Quality.Capability;

/// <summary>Readings after a Box-Cox transformation, or why there is none.</summary>
internal sealed class TransformedReadings
{
    private readonly double[] _readings;

    private TransformedReadings(BoxCox? transformation, double[] readings, string why)
    {
        Transformation = transformation;
        _readings = readings;
        Why = why;
    }

    /// <summary>The transformation; <see langword="null"/> where there is none.</summary>
    public BoxCox? Transformation { get; }

    /// <summary>The transformed readings; empty without a transformation.</summary>
    public ReadOnlySpan<double> Readings => _readings;

    /// <summary>Why there is none, in words.</summary>
    public string Why { get; }

    public static TransformedReadings None(string why) => new(null, [], why);

    public static TransformedReadings Of(ReadOnlySpan<double> readings, ReadOnlySpan<double> sample, CapabilityLimits limits, CapabilityOptions options)
    {
        foreach (double reading in readings)
        {
            if (reading <= 0)
            {
                return None("Box-Cox needs readings above 0");
            }
        }

        if (limits.Lower <= 0 || limits.Upper <= 0)
        {
            return None("Box-Cox needs limits above 0");
        }

        if (sample.IndexOfAnyExcept(sample[0]) < 0)
        {
            return None("Box-Cox needs readings that differ");
        }

        BoxCox transformation = BoxCox.Fit(sample);
        double[] transformed = new double[readings.Length];
        for (int i = 0; i < readings.Length; i++)
        {
            transformed[i] = transformation.Transform(readings[i]);
        }

        return options.Model == CapabilityModel.Automatic && AndersonDarling.Of(ProcessCapability.Spaced(transformed))?.PValue < options.NormalityLevel
            ? None("not normal after a Box-Cox transformation either")
            : new TransformedReadings(transformation, transformed, "");
    }
}

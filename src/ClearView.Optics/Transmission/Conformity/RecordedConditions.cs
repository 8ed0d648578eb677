namespace ClearView.Optics.Transmission.Conformity;

/// <summary>What the record of a reading says of the conditions that a standard asks about; <see langword="null"/> where it says nothing.</summary>
public sealed record RecordedConditions
{
    /// <summary>Temperature of conditioning, °C.</summary>
    public double? TemperatureC { get; init; }

    /// <summary>Relative humidity of conditioning, %.</summary>
    public double? HumidityPercent { get; init; }

    /// <summary>Time of conditioning, h.</summary>
    public double? ConditioningHours { get; init; }

    /// <summary>Number of specimens that the result rests on.</summary>
    public int? SpecimenCount { get; init; }

    /// <summary>Smallest extent of the specimen, mm.</summary>
    public double? SpecimenExtentMm { get; init; }

    /// <summary>Diameter of the sphere's entrance port, mm.</summary>
    public double? PortDiameterMm { get; init; }

    /// <summary>Area of all ports over the inner area of the sphere, %.</summary>
    public double? PortAreaPercent { get; init; }
}

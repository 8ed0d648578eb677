using ClearView.Optics.Evaluations;

namespace ClearView.Quality.Descriptive;

/// <summary>Measurands as they stand within a sentence.</summary>
public static class MeasurandInWords
{
    /// <summary>The name; a capital that opens it is lowered, one that stands alone or opens an abbreviation is kept.</summary>
    /// <param name="measurand">The measurand.</param>
    public static string Name(Measurand measurand)
    {
        ArgumentNullException.ThrowIfNull(measurand);
        string name = measurand.Name;
        return name.Length > 1 && char.IsLower(name[1]) ? char.ToLowerInvariant(name[0]) + name[1..] : name;
    }
}

using ClearView.Contract.Validation;
using ClearView.Optics.Evaluations;

namespace ClearView.Contract.Series;

/// <summary>Rules for the measurand of a series, a chart or a study.</summary>
public static class SeriesMeasurandRules
{
    /// <summary>Finds the measurand.</summary>
    /// <param name="id">Its identifier as it came.</param>
    /// <param name="path">Path of the field, for violations.</param>
    /// <param name="violations">Takes what is at fault.</param>
    /// <returns>The measurand; <see langword="null"/> where there is none of that identifier, or it is an angle, of which no plain mean can be taken.</returns>
    public static Measurand? Read(string id, string path, Violations violations)
    {
        ArgumentNullException.ThrowIfNull(id);
        ArgumentNullException.ThrowIfNull(violations);
        if (!Measurand.TryFind(id, out Measurand? measurand))
        {
            violations.Add(path, $"was \"{id}\"; expected a measurand of the registry, for example haze.");
            return null;
        }

        if (measurand.IsAngle)
        {
            violations.Add(path, $"was {id}, an angle, which comes round at 360° and has no plain mean; expected another measurand.");
            return null;
        }

        return measurand;
    }
}

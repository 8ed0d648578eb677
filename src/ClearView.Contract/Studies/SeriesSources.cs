using ClearView.Contract.Series;
using ClearView.Contract.Validation;
using ClearView.Quality.Series;
using ClearView.V1;

namespace ClearView.Contract.Studies;

/// <summary>Reads what a study of one series rests on: its readings and its limits.</summary>
internal static class SeriesSources
{
    /// <summary>Checks stored readings, or reads those brought along.</summary>
    public static SeriesQuestion? Read(StoredSeries? stored, GivenSeries? given, SeriesParts parts, Violations violations)
    {
        if (given is not null)
        {
            return SeriesReader.Read(given, parts, "given", violations) is { } series
                ? new SeriesQuestion(series.Measurand, series.Columns)
                : null;
        }

        if (stored is not null)
        {
            return SeriesFilterRules.Check(stored, "stored", violations) is { } measurand ? new SeriesQuestion(measurand, null) : null;
        }

        violations.Add("stored", $"was missing, and given too; expected one of them.");
        return null;
    }

    /// <summary>Checks limits by value, or the name of those that are stored.</summary>
    public static void CheckLimits(SeriesLimits? limits, SpecificationName? name, bool required, Violations violations)
    {
        if (limits is not null)
        {
            SeriesLimitsRules.Check(limits, "limits", violations);
        }
        else if (name is not null)
        {
            MethodNameRules.Check(name.Name, "specification_name.name", violations);
        }
        else if (required)
        {
            violations.Add("limits", $"was missing, and specification_name too; expected one of them.");
        }
    }

    /// <summary>What a request needs a store for, where there is none.</summary>
    public static void RefuseStored(SeriesQuestion? question, SpecificationName? name, Violations violations)
    {
        if (question is { Given: null })
        {
            violations.Add("stored", $"was given; stored readings need a server. Expected given.");
        }

        if (name is not null)
        {
            violations.Add("specification_name", $"was given; stored specifications need a server. Expected limits.");
        }
    }
}

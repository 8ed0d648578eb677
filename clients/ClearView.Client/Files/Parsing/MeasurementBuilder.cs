using System.Collections.Immutable;

using ClearView.V1;

namespace ClearView.Client.Files.Parsing;

/// <summary>Puts scans and keys together into a measurement.</summary>
internal static class MeasurementBuilder
{
    /// <summary>Builds the measurement.</summary>
    /// <exception cref="ScanFileException">A required key is missing, or a value is not what its key needs.</exception>
    public static Measurement Build(Scans scans, Metadata metadata)
    {
        var missing = ScanFileKeys.Required.Where(key => metadata.Get(key) is null).ToImmutableArray();
        if (missing.Length > 0)
        {
            throw new ScanFileException(metadata.Path, null, null, $"nothing says {string.Join(", ", missing)}",
                $"a line \"# {missing[0]}: ...\" in the file for each, or the value as an option")
            { MissingKeys = missing };
        }
        var values = new ValueReader(metadata);
        var conditions = new Conditions
        {
            Instrument = values.Text(ScanFileKeys.Instrument),
            ApertureMm = values.Number(ScanFileKeys.ApertureMm)!.Value,
            UvFilter = values.Word(ScanFileKeys.UvFilter, Words.UvFilters),
            Geometry = values.Word(ScanFileKeys.Geometry, Words.Geometries),
            Operator = values.Text(ScanFileKeys.Operator),
        };
        if (values.Number(ScanFileKeys.ThicknessUm) is { } thicknessUm)
        {
            conditions.ThicknessUm = thicknessUm;
        }
        if (values.Number(ScanFileKeys.ConditioningTemperatureC) is { } temperatureC)
        {
            conditions.ConditioningTemperatureC = temperatureC;
        }
        if (values.Number(ScanFileKeys.ConditioningHumidityPercent) is { } humidityPercent)
        {
            conditions.ConditioningHumidityPercent = humidityPercent;
        }
        if (values.Number(ScanFileKeys.ConditioningHours) is { } hours)
        {
            conditions.ConditioningHours = hours;
        }
        if (values.Count(ScanFileKeys.SpecimenCount) is { } specimens)
        {
            conditions.SpecimenCount = specimens;
        }
        if (values.Number(ScanFileKeys.SpecimenExtentMm) is { } extentMm)
        {
            conditions.SpecimenExtentMm = extentMm;
        }
        if (values.Number(ScanFileKeys.PortDiameterMm) is { } portDiameterMm)
        {
            conditions.PortDiameterMm = portDiameterMm;
        }
        if (values.Number(ScanFileKeys.PortAreaPercent) is { } portAreaPercent)
        {
            conditions.PortAreaPercent = portAreaPercent;
        }
        return new Measurement
        {
            Scans = scans,
            Conditions = conditions,
            Identification = BuildIdentification(values, metadata),
            MeasuredAt = TimeReader.Read(metadata.Get(ScanFileKeys.MeasuredAt)!, metadata.Path),
        };
    }

    private static Identification BuildIdentification(ValueReader values, Metadata metadata)
    {
        var identification = new Identification
        {
            Line = values.Text(ScanFileKeys.Line),
            Product = values.Text(ScanFileKeys.Product),
            Lot = values.Text(ScanFileKeys.Lot),
            Roll = values.Text(ScanFileKeys.Roll),
            Specimen = values.Text(ScanFileKeys.Specimen),
        };
        var web = metadata.Get(ScanFileKeys.AcrossMm) ?? metadata.Get(ScanFileKeys.AlongM);
        var wall = metadata.Get(ScanFileKeys.WallRegion);
        var height = metadata.Get(ScanFileKeys.HeightMm);
        if (web is not null && (wall ?? height) is { } second)
        {
            throw new ScanFileException(metadata.Path, second.Line, second.Column, "both a place on a web and a place on a wall are given", "one of them");
        }
        if (height is not null && wall is null)
        {
            throw new ScanFileException(metadata.Path, height.Line, height.Column, "height_mm is given without wall_region", "wall_region beside it");
        }
        if (web is not null)
        {
            identification.Web = new WebPosition();
            if (values.Number(ScanFileKeys.AcrossMm) is { } acrossMm)
            {
                identification.Web.AcrossMm = acrossMm;
            }
            if (values.Number(ScanFileKeys.AlongM) is { } alongM)
            {
                identification.Web.AlongM = alongM;
            }
        }
        if (wall is not null)
        {
            identification.Wall = new WallPosition { Region = values.Word(ScanFileKeys.WallRegion, Words.WallRegions) };
            if (values.Number(ScanFileKeys.HeightMm) is { } heightMm)
            {
                identification.Wall.HeightMm = heightMm;
            }
        }
        return identification;
    }
}

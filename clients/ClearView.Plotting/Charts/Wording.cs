using System.Globalization;

using ClearView.V1;

namespace ClearView.Plotting.Charts;

/// <summary>How methods, places and sources are put in words, the same on every chart.</summary>
internal static class Wording
{
    public static string Pair(LightAndObserver? pair) => pair is null
        ? "illuminant and observer not stated"
        : $"illuminant {pair.Illuminant}, {ObserverName(pair.Observer)}";

    public static string Standard(HazeStandard standard) => standard switch
    {
        HazeStandard.AstmD1003ProcedureA => "ASTM D1003 procedure A",
        HazeStandard.AstmD1003ProcedureB => "ASTM D1003 procedure B",
        HazeStandard.Iso14782Iso134681 => "ISO 14782, ISO 13468-1",
        HazeStandard.Iso14782Iso134682 => "ISO 14782, ISO 13468-2",
        _ => "standard not stated",
    };

    /// <summary>Standard, illuminant, observer, weighting and interval of one value.</summary>
    public static string Basis(MeasuredValue value)
    {
        string interval = value.HasIntervalNm ? $", interval {Number(value.IntervalNm)} nm" : "";
        string weighting = value.Weighting.Length > 0 ? $", weighting: {value.Weighting}" : "";
        return $"{value.Standard}, {Pair(value.LightAndObserver)}{interval}{weighting}";
    }

    /// <summary>Name, symbol where the name does not end with it, and unit, for an axis.</summary>
    public static string Quantity(MeasuredValue value)
    {
        string symbol = value.Symbol.Length == 0 || value.Name.EndsWith(value.Symbol, StringComparison.Ordinal) ? "" : $" {value.Symbol}";
        return $"{value.Name}{symbol}{(value.Unit.Length > 0 ? $" ({value.Unit})" : "")}";
    }

    /// <summary>Name and unit, for an axis.</summary>
    public static string Quantity(string name, string unit) => unit.Length > 0 ? $"{name} ({unit})" : name;

    /// <summary>A unit as it follows a figure: after a space, but for degrees.</summary>
    public static string Suffix(string unit) => unit.Length == 0 || unit == "°" ? unit : $" {unit}";

    /// <summary>Bases of one measurand over many readings, each once.</summary>
    public static string Bases(IEnumerable<MeasuredValue> values) =>
        string.Join("; ", values.Select(Basis).Distinct(StringComparer.Ordinal));

    public static string Grid(WavelengthGrid grid)
    {
        double[] nm = Wavelengths(grid);
        string range = $"{Number(nm[0])}-{Number(nm[^1])} nm";
        return grid.FormCase == WavelengthGrid.FormOneofCase.Regular
            ? $"{range}, interval {Number(grid.Regular.StepNm)} nm"
            : $"{range}, {nm.Length} wavelengths";
    }

    public static double[] Wavelengths(WavelengthGrid grid) => grid.FormCase == WavelengthGrid.FormOneofCase.Irregular
        ? [.. grid.Irregular.WavelengthNm]
        : [.. Enumerable.Range(0, (int)grid.Regular.Count).Select(i => grid.Regular.StartNm + (i * grid.Regular.StepNm))];

    public static string Time(DateTime utc) => utc.ToString("yyyy-MM-dd HH:mm 'UTC'", CultureInfo.InvariantCulture);

    public static string Number(double value) =>
        value.ToString("0.####", CultureInfo.InvariantCulture).Replace('-', '−');

    /// <summary>Specimen with what it belongs to: product, roll, place.</summary>
    public static string Specimen(ChartReading reading)
    {
        Identification id = reading.Measurement.Identification;
        string[] parts =
        [
            id.Product,
            id.Roll.Length > 0 ? $"roll {id.Roll}" : "",
            $"specimen {id.Specimen}",
            Place(id),
            reading.Measurement.Conditions?.HasThicknessUm == true ? $"{Number(reading.Measurement.Conditions.ThicknessUm)} µm" : "",
        ];
        return string.Join(", ", parts.Where(part => part.Length > 0));
    }

    /// <summary>Specimen and, on a bottle, the region of its wall.</summary>
    public static string SpecimenAndPlace(ChartReading reading)
    {
        Identification id = reading.Measurement.Identification;
        return id.PositionCase == Identification.PositionOneofCase.Wall ? $"{id.Specimen}, {Region(id.Wall.Region)}" : id.Specimen;
    }

    /// <summary>Where the readings come from and when they were measured.</summary>
    public static string Source(IReadOnlyList<ChartReading> readings)
    {
        string from = readings.Count == 1 ? readings[0].Source : $"{readings.Count} readings, {SourceKind(readings)}";
        string[] instruments = [.. readings.Select(r => r.Measurement.Conditions?.Instrument ?? "").Where(n => n.Length > 0).Distinct().Take(4)];
        string by = instruments.Length is > 0 and < 4 ? $", instrument {string.Join(", ", instruments)}" : "";
        DateTime first = readings.Min(r => r.MeasuredAtUtc);
        DateTime last = readings.Max(r => r.MeasuredAtUtc);
        string when = first == last ? Time(first)
            : first.Date == last.Date ? string.Create(CultureInfo.InvariantCulture, $"{first:yyyy-MM-dd HH:mm} to {last:HH:mm} UTC")
            : $"{Time(first)} to {Time(last)}";
        return $"Source: {from}{by}, measured {when}.";
    }

    /// <summary>A region of a wall in words; empty where there is none.</summary>
    public static string Region(WallRegion region) => region switch
    {
        WallRegion.Panel => "panel",
        WallRegion.Shoulder => "shoulder",
        WallRegion.Base => "base",
        WallRegion.LabelArea => "label area",
        _ => "",
    };

    private static string SourceKind(IReadOnlyList<ChartReading> readings)
    {
        string[] sources = [.. readings.Select(r => r.Source).Distinct(StringComparer.Ordinal)];
        return sources.Length == 1 ? sources[0] : $"{sources[0]} to {sources[^1]}";
    }

    private static string Place(Identification id) => id.PositionCase switch
    {
        Identification.PositionOneofCase.Web => string.Join(", ", new[]
        {
            id.Web.HasAcrossMm ? $"{Number(id.Web.AcrossMm)} mm across" : "",
            id.Web.HasAlongM ? $"{Number(id.Web.AlongM)} m along the web" : "",
        }.Where(part => part.Length > 0)),
        Identification.PositionOneofCase.Wall => Region(id.Wall.Region),
        _ => "",
    };

    private static string ObserverName(Observer observer) => observer switch
    {
        Observer.Cie19312Deg => "2° observer",
        Observer.Cie196410Deg => "10° observer",
        _ => "observer not stated",
    };
}

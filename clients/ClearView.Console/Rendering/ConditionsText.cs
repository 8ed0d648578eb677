using ClearView.V1;

namespace ClearView.Console.Rendering;

/// <summary>Says conditions and positions in words.</summary>
internal static class ConditionsText
{
    /// <summary>The instrument and its settings.</summary>
    public static string Instrument(Conditions conditions)
    {
        var geometry = conditions.Geometry switch
        {
            Geometry.DirectionalToSphere => "geometry 0:d",
            Geometry.SphereToDirectional => "geometry d:0",
            _ => "geometry not recorded",
        };
        var filter = conditions.UvFilter switch
        {
            UvFilter.None => "no UV filter",
            UvFilter.Cutoff400Nm => "UV filter 400 nm",
            UvFilter.Cutoff420Nm => "UV filter 420 nm",
            UvFilter.Cutoff460Nm => "UV filter 460 nm",
            _ => "UV filter not recorded",
        };
        return $"{conditions.Instrument}, aperture {NumberText.Plain(conditions.ApertureMm)} mm, {geometry}, {filter}";
    }

    /// <summary>Thickness and conditioning; empty where neither is known.</summary>
    public static string State(Conditions conditions)
    {
        var parts = new List<string>();
        if (conditions.HasThicknessUm)
        {
            parts.Add($"{NumberText.Plain(conditions.ThicknessUm)} µm thick");
        }
        if (conditions.HasConditioningHours)
        {
            parts.Add($"conditioned for {NumberText.Plain(conditions.ConditioningHours)} h");
        }
        if (conditions.HasConditioningTemperatureC)
        {
            parts.Add($"at {NumberText.Plain(conditions.ConditioningTemperatureC)} °C");
        }
        if (conditions.HasConditioningHumidityPercent)
        {
            parts.Add($"{NumberText.Plain(conditions.ConditioningHumidityPercent)} % relative humidity");
        }
        return string.Join(", ", parts);
    }

    /// <summary>The place on film or bottle; empty where it is not known.</summary>
    public static string Position(Identification identification)
    {
        var parts = new List<string>();
        if (identification.Web is { } web)
        {
            if (web.HasAcrossMm)
            {
                parts.Add($"{NumberText.Plain(web.AcrossMm)} mm across");
            }
            if (web.HasAlongM)
            {
                parts.Add($"{NumberText.Plain(web.AlongM)} m along");
            }
        }
        if (identification.Wall is { } wall)
        {
            parts.Add(Region(wall.Region));
            if (wall.HasHeightMm)
            {
                parts.Add($"{NumberText.Plain(wall.HeightMm)} mm high");
            }
        }
        return string.Join(", ", parts);
    }

    /// <summary>A region of a bottle's wall.</summary>
    public static string Region(WallRegion region) => region switch
    {
        WallRegion.Panel => "panel",
        WallRegion.Shoulder => "shoulder",
        WallRegion.Base => "base",
        WallRegion.LabelArea => "label area",
        _ => "wall",
    };
}

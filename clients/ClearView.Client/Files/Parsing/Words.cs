using ClearView.V1;

namespace ClearView.Client.Files.Parsing;

/// <summary>The words for the choices of the contract.</summary>
internal static class Words
{
    /// <summary>Words for whether ultraviolet light reached the specimen.</summary>
    public static IReadOnlyDictionary<string, UvFilter> UvFilters { get; } = new Dictionary<string, UvFilter>(StringComparer.OrdinalIgnoreCase)
    {
        ["none"] = UvFilter.None,
        ["400"] = UvFilter.Cutoff400Nm,
        ["420"] = UvFilter.Cutoff420Nm,
        ["460"] = UvFilter.Cutoff460Nm,
        ["not_recorded"] = UvFilter.NotRecorded,
    };

    /// <summary>Words for the geometry.</summary>
    public static IReadOnlyDictionary<string, Geometry> Geometries { get; } = new Dictionary<string, Geometry>(StringComparer.OrdinalIgnoreCase)
    {
        ["0:d"] = Geometry.DirectionalToSphere,
        ["directional_to_sphere"] = Geometry.DirectionalToSphere,
        ["d:0"] = Geometry.SphereToDirectional,
        ["sphere_to_directional"] = Geometry.SphereToDirectional,
        ["not_recorded"] = Geometry.NotRecorded,
    };

    /// <summary>Words for the regions of a bottle's wall.</summary>
    public static IReadOnlyDictionary<string, WallRegion> WallRegions { get; } = new Dictionary<string, WallRegion>(StringComparer.OrdinalIgnoreCase)
    {
        ["panel"] = WallRegion.Panel,
        ["shoulder"] = WallRegion.Shoulder,
        ["base"] = WallRegion.Base,
        ["label_area"] = WallRegion.LabelArea,
    };
}

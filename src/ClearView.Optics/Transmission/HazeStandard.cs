using System.Collections.Immutable;

using ClearView.Optics.Colorimetry;

namespace ClearView.Optics.Transmission;

/// <summary>A standard that defines haze and the luminous transmittance beside it.</summary>
/// <remarks>There is one instance of each, so that equality is identity. The formulas are the same; apparatus, light and limits differ.</remarks>
public sealed class HazeStandard
{
    private HazeStandard(
        string hazeName,
        string transmittanceName,
        double highestHazePercent,
        ScanKind? expectedScans,
        params ReadOnlySpan<LightAndObserver> namedPairs)
    {
        HazeName = hazeName;
        TransmittanceName = transmittanceName;
        HighestHazePercent = highestHazePercent;
        ExpectedScans = expectedScans;
        NamedPairs = [.. namedPairs];
    }

    /// <summary>ASTM D1003, procedure A: hazemeter, illuminant C or A, 2° observer, haze up to 30 %.</summary>
    public static HazeStandard AstmD1003ProcedureA { get; } = new(
        "ASTM D1003 procedure A",
        "ASTM D1003 procedure A",
        30,
        ScanKind.Hazemeter,
        LightAndObserver.CDegree2,
        LightAndObserver.ADegree2);

    /// <summary>ASTM D1003, procedure B: spectrophotometer, illuminant C or A, 2° observer, haze up to 30 %.</summary>
    public static HazeStandard AstmD1003ProcedureB { get; } = new(
        "ASTM D1003 procedure B",
        "ASTM D1003 procedure B",
        30,
        ScanKind.Spectral,
        LightAndObserver.CDegree2,
        LightAndObserver.ADegree2);

    /// <summary>ISO 14782 with ISO 13468-1 (single beam): illuminant D65, 2° observer, haze up to 40 %.</summary>
    public static HazeStandard Iso14782WithIso13468Part1 { get; } =
        new("ISO 14782", "ISO 13468-1", 40, null, LightAndObserver.D65Degree2);

    /// <summary>ISO 14782 with ISO 13468-2 (double beam): illuminant D65, 2° observer, haze up to 40 %.</summary>
    public static HazeStandard Iso14782WithIso13468Part2 { get; } =
        new("ISO 14782", "ISO 13468-2", 40, null, LightAndObserver.D65Degree2);

    /// <summary>Every standard.</summary>
    public static ImmutableArray<HazeStandard> All { get; } =
        [AstmD1003ProcedureA, AstmD1003ProcedureB, Iso14782WithIso13468Part1, Iso14782WithIso13468Part2];

    /// <summary>Standard and procedure that haze is reported after.</summary>
    public string HazeName { get; }

    /// <summary>Standard and procedure that luminous transmittance is reported after.</summary>
    public string TransmittanceName { get; }

    /// <summary>Haze, %, above which the standard no longer applies.</summary>
    public double HighestHazePercent { get; }

    /// <summary>Kind of scans that the procedure is written for, or <see langword="null"/> where either serves.</summary>
    public ScanKind? ExpectedScans { get; }

    /// <summary>Illuminants and observers that the standard names.</summary>
    public ImmutableArray<LightAndObserver> NamedPairs { get; }

    /// <summary>Both names, for example "ISO 14782 with ISO 13468-2".</summary>
    public override string ToString() =>
        HazeName == TransmittanceName ? HazeName : $"{HazeName} with {TransmittanceName}";
}

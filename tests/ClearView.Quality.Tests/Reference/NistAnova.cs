using ClearView.Quality.Lots;

namespace ClearView.Quality.Tests.Reference;

/// <summary>One-way sets of the NIST Statistical Reference Datasets.</summary>
internal static class NistAnova
{
    /// <summary>SiRstv: resistivity of silicon by five instruments.</summary>
    public static Lot[] SiRstv { get; } =
    [
        new("1", [196.3052, 196.1240, 196.1890, 196.2569, 196.3403]),
        new("2", [196.3042, 196.3825, 196.1669, 196.3257, 196.0422]),
        new("3", [196.1303, 196.2005, 196.2889, 196.0343, 196.1811]),
        new("4", [196.2795, 196.1748, 196.1494, 196.1485, 195.9885]),
        new("5", [196.2119, 196.1051, 196.1850, 196.0052, 196.2090]),
    ];

    /// <summary>AtmWtAg: atomic weight of silver by two instruments; from memory.</summary>
    public static Lot[] AtmWtAg { get; } =
    [
        new("1",
        [
            107.8681568, 107.8681465, 107.8681572, 107.8681785, 107.8681446, 107.8681903, 107.8681526, 107.8681494,
            107.8681616, 107.8681587, 107.8681519, 107.8681486, 107.8681419, 107.8681569, 107.8681508, 107.8681672,
            107.8681385, 107.8681518, 107.8681662, 107.8681424, 107.8681360, 107.8681333, 107.8681610, 107.8681477,
        ]),
        new("2",
        [
            107.8681079, 107.8681344, 107.8681513, 107.8681197, 107.8681604, 107.8681385, 107.8681642, 107.8681365,
            107.8681151, 107.8681082, 107.8681517, 107.8681448, 107.8681198, 107.8681482, 107.8681334, 107.8681609,
            107.8681101, 107.8681512, 107.8681469, 107.8681360, 107.8681254, 107.8681261, 107.8681450, 107.8681368,
        ]),
    ];

    /// <summary>SmLs01 to SmLs09 (Simon and Lesage 1989): nine lots around centres of .4, .3, .5, .3 …, in pairs a tenth below and above.</summary>
    /// <param name="leading">The leading digits in common: 1, 10⁶ or 10¹².</param>
    /// <param name="replicates">21, 201 or 2001.</param>
    /// <param name="withoutLeading">Whether the leading digits are taken off, in decimal arithmetic, before the values become doubles.</param>
    public static Lot[] SimonLesage(decimal leading, int replicates, bool withoutLeading = false)
    {
        decimal[] centres = [0.4m, 0.3m, 0.5m, 0.3m, 0.5m, 0.3m, 0.5m, 0.3m, 0.5m];
        decimal start = withoutLeading ? 0 : leading;
        return
        [
            .. centres.Select((centre, index) => new Lot(
                $"{index + 1}",
                [
                    (double)(start + centre),
                    .. Enumerable.Range(0, replicates - 1).Select(i => (double)(start + centre + (i % 2 == 0 ? -0.1m : 0.1m))),
                ])),
        ];
    }
}

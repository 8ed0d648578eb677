using ClearView.Optics.Evaluations;
using ClearView.Quality.Lots;

namespace ClearView.Quality.Tests.Lots;

/// <summary>Invented lots: haze in percent, unequal sizes and spreads, with ties; yellowness over ageing time.</summary>
internal static class Samples
{
    public static Measurand Haze { get; } = Measurand.All.Single(one => one.Id == "haze");

    public static Lot[] Hazes { get; } =
    [
        new("Amber", [2.31, 2.44, 2.02, 2.6, 2.39, 2.18, 2.75]),
        new("Birch", [2.9, 2.44, 3.1, 2.75, 3.32]),
        new("Cedar", [2.2, 2.25, 2.31, 2.18, 2.28, 2.2, 2.24, 2.31]),
        new("Delta", [2.5, 3.9, 1.8, 2.9, 2.2, 3.4]),
    ];

    public static Lot[] Aged { get; } =
    [
        new("Amber", [1.1, 1.3, 1.9, 2.2, 3.1, 3.3, 4.4], [0, 0, 250, 250, 500, 500, 1000]),
        new("Birch", [1.2, 1.5, 2.6, 3.3, 4.4, 7.2, 7.6], [0, 0, 250, 500, 500, 1000, 1000]),
        new("Cedar", [1.0, 1.2, 1.7, 2.4, 4.0, 4.5], [0, 0, 250, 500, 1000, 1000]),
    ];

    public static double[] Values(IEnumerable<Lot> lots) => [.. lots.SelectMany(lot => lot.Values)];

    public static double[] Times(IEnumerable<Lot> lots) => [.. lots.SelectMany(lot => lot.AgeingTimesH!.Value)];

    public static double[] Groups(IReadOnlyList<Lot> lots) => [.. lots.SelectMany((lot, index) => lot.Values.Select(_ => index + 1.0))];
}

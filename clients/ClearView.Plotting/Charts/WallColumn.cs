using System.Collections.Immutable;

using ClearView.Plotting.Model;

namespace ClearView.Plotting.Charts;

/// <summary>Readings of one product at one region of the wall.</summary>
/// <param name="Product">The product; may be empty.</param>
/// <param name="Region">The region in words.</param>
/// <param name="Readings">The readings, at least one, by time.</param>
internal sealed record WallColumn(string Product, string Region, ImmutableArray<ChartReading> Readings)
{
    /// <summary>One column for each product and region, products in order of appearance, regions in that of the contract.</summary>
    /// <param name="readings">Readings that name a region, by time.</param>
    public static WallColumn[] Of(IEnumerable<ChartReading> readings) =>
    [
        .. readings
            .GroupBy(reading => reading.Product, StringComparer.Ordinal)
            .SelectMany(product => product
                .GroupBy(WallChart.Region)
                .OrderBy(region => region.Key)
                .Select(region => new WallColumn(product.Key, Wording.Region(region.Key!.Value), [.. region]))),
    ];

    /// <summary>A band over each product's columns; none where there is one product only.</summary>
    public static ImmutableArray<BandModel> Bands(WallColumn[] columns, bool named)
    {
        var bands = ImmutableArray.CreateBuilder<BandModel>();
        for (int start = 0; start < columns.Length;)
        {
            int end = start;
            while (end < columns.Length && columns[end].Product == columns[start].Product)
            {
                end++;
            }

            bands.Add(new BandModel(start == 0 ? 0.4 : start + 0.5, end == columns.Length ? end + 0.6 : end + 0.5, named ? columns[start].Product : ""));
            start = end;
        }

        return bands.Count > 1 ? bands.ToImmutable() : [];
    }

    /// <summary>The values of a measurand, of the readings that give it.</summary>
    public double[] Values(string measurand) => [.. Readings.Select(reading => reading.Find(measurand)).Where(value => value is not null).Select(value => value!.Value)];
}

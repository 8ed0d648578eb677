using ClearView.Plotting.Model;
using ClearView.V1;

namespace ClearView.Plotting.Charts;

/// <summary>Expanded uncertainties of colours as thin lines behind the marks.</summary>
internal static class ColourWhiskers
{
    private static readonly SeriesLook Look = new(LineKind.Solid, MarkKind.None, Ink.Grey) { LineWidth = 1 };

    /// <summary>One series with the whiskers of all readings that carry uncertainties; none where none does.</summary>
    /// <param name="readings">The readings.</param>
    /// <param name="find">For a reading and its place among the readings: which way each whisker runs, where it stands, and its value.</param>
    public static IEnumerable<SeriesModel> Of(
        IEnumerable<ChartReading> readings,
        Func<ChartReading, int, (LineOrientation Orientation, double At, MeasuredValue? Value)[]> find)
    {
        (LineOrientation Orientation, double At, MeasuredValue? Value)[] uncertain =
            [.. readings.SelectMany(find).Where(one => one.Value?.Uncertainty is not null)];
        if (uncertain.Length > 0)
        {
            yield return new SeriesModel
            {
                Label = Coverage.LabelOf(uncertain.Select(one => one.Value!.Uncertainty)),
                Look = Look,
                Points = [],
                Whiskers =
                [
                    .. uncertain.Select(one => new WhiskerModel(
                        one.Orientation,
                        one.At,
                        one.Value!.Value - one.Value.Uncertainty.ExpandedUncertainty,
                        one.Value.Value + one.Value.Uncertainty.ExpandedUncertainty)),
                ],
            };
        }
    }

    /// <summary>The ends of whiskers that run one way.</summary>
    public static IEnumerable<double> Reach(IEnumerable<SeriesModel> series, LineOrientation orientation) => series
        .SelectMany(one => one.Whiskers)
        .Where(whisker => whisker.Orientation == orientation)
        .SelectMany(whisker => new[] { whisker.Low, whisker.High });
}

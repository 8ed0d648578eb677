using ClearView.Quality.Series;

namespace ClearView.Contract.ControlCharts;

/// <summary>Series by rows and by stretches of time.</summary>
internal static class SeriesRows
{
    /// <summary>One reading, with what of it is kept; a chart asks for no places.</summary>
    public static SeriesReading At(SeriesColumns columns, int place) => new(
        columns.MeasuredAtTicks[place],
        columns.RecordedOrder[place],
        columns.Values[place],
        (columns.Parts & SeriesParts.Labels) != 0 ? columns.Labels[place] : "",
        double.NaN,
        double.NaN);

    /// <summary>The readings of a stretch of time, as a series of its own.</summary>
    public static SeriesColumns Between(SeriesColumns columns, TickSpan span)
    {
        SeriesColumns part = new(columns.Parts);
        (int start, int length) = span.PlacesIn(columns.MeasuredAtTicks).GetOffsetAndLength(columns.Count);
        for (int i = start; i < start + length; i++)
        {
            part.Add(At(columns, i));
        }

        return part;
    }
}

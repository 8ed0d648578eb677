using System.Collections.Immutable;

using ScottPlot;

namespace ClearView.Plotting.Rendering;

/// <summary>Finds free places for words near their points.</summary>
internal static class LabelPlacer
{
    private const float NearPt = 7;
    private const float MarkPt = 6;
    private const int ReachCount = 5;

    // As many covered marks as one step further away is worth.
    private const int MarksOfReach = 3;
    private const int SideReachCount = 2;

    /// <summary>Places words, in turn.</summary>
    /// <param name="requests">Point and size of each.</param>
    /// <param name="area">Where they must lie.</param>
    /// <param name="taken">Rectangles that they must not touch.</param>
    /// <param name="marks">Points that they should rather not cover.</param>
    /// <returns>For each its rectangle; null where no place is free.</returns>
    public static PixelRect?[] Place(
        IReadOnlyList<(Pixel Point, float Width, float Height)> requests,
        PixelRect area,
        IEnumerable<PixelRect> taken,
        IReadOnlyList<Pixel> marks)
    {
        List<PixelRect> occupied = [.. taken];
        var places = new PixelRect?[requests.Count];
        for (int i = 0; i < requests.Count; i++)
        {
            (Pixel point, float width, float height) = requests[i];
            ImmutableArray<(PixelRect Rect, int Reach)> free =
            [
                .. Candidates(point, width, height).Where(one => Contains(area, one.Rect) && !occupied.Any(other => Touches(one.Rect, other))),
            ];
            if (free.Length > 0)
            {
                PixelRect best = free.MinBy(one => Covered(one.Rect, marks) + (MarksOfReach * one.Reach)).Rect;
                occupied.Add(best);
                places[i] = best;
            }
        }

        return places;
    }

    internal static bool Touches(PixelRect one, PixelRect other) =>
        one.Left < other.Right && other.Left < one.Right && one.Top < other.Bottom && other.Top < one.Bottom;

    /// <summary>Above first, then beneath and beside, then further away.</summary>
    private static IEnumerable<(PixelRect Rect, int Reach)> Candidates(Pixel point, float width, float height)
    {
        for (int reach = 0; reach < ReachCount; reach++)
        {
            float away = NearPt + (reach * height);
            foreach (float shift in new[] { 0, 0.5f, -0.5f })
            {
                float left = point.X - (width / 2) + (shift * width);
                yield return (Rect(left, point.Y - away - height, width, height), reach);
                yield return (Rect(left, point.Y + away, width, height), reach);
            }

            if (reach < SideReachCount)
            {
                yield return (Rect(point.X + away, point.Y - (height / 2), width, height), reach);
                yield return (Rect(point.X - away - width, point.Y - (height / 2), width, height), reach);
            }
        }
    }

    private static PixelRect Rect(float left, float top, float width, float height) => new(left, left + width, top + height, top);

    private static bool Contains(PixelRect area, PixelRect rect) =>
        rect.Left >= area.Left && rect.Right <= area.Right && rect.Top >= area.Top && rect.Bottom <= area.Bottom;

    private static int Covered(PixelRect rect, IReadOnlyList<Pixel> marks) => marks.Count(mark =>
        mark.X > rect.Left - MarkPt && mark.X < rect.Right + MarkPt && mark.Y > rect.Top - MarkPt && mark.Y < rect.Bottom + MarkPt);
}

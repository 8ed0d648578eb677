using ClearView.Plotting.Model;

namespace ClearView.Plotting.Decisions;

/// <summary>A smooth line through given points.</summary>
internal static class SmoothLine
{
    private const int StepCount = 8;

    /// <summary>A cubic Hermite line with the slopes of Catmull and Rom (1974, from memory); not below 0.</summary>
    /// <param name="points">The points, ascending and evenly spaced horizontally; each lies on the line.</param>
    public static IEnumerable<ChartPoint> Through(IReadOnlyList<ChartPoint> points)
    {
        for (int i = 0; i + 1 < points.Count; i++)
        {
            (ChartPoint from, ChartPoint to) = (points[i], points[i + 1]);
            double slopeFrom = (to.Y - points[Math.Max(i - 1, 0)].Y) / (i == 0 ? 1 : 2);
            double slopeTo = (points[Math.Min(i + 2, points.Count - 1)].Y - from.Y) / (i + 2 == points.Count ? 1 : 2);
            for (int step = 0; step < StepCount; step++)
            {
                double t = (double)step / StepCount;
                double y = (((2 * t * t * t) - (3 * t * t) + 1) * from.Y) + (((t * t * t) - (2 * t * t) + t) * slopeFrom)
                    + (((-2 * t * t * t) + (3 * t * t)) * to.Y) + (((t * t * t) - (t * t)) * slopeTo);
                yield return new ChartPoint(from.X + (t * (to.X - from.X)), Math.Max(0, y));
            }
        }

        if (points.Count > 0)
        {
            yield return points[^1];
        }
    }
}

using System.Numerics;

using ClearView.Quality.ControlCharts;
using ClearView.V1;

namespace ClearView.Contract.ControlCharts;

/// <summary>Patterns of the wire and signals of the calculation: the same list, numbered there and as bits here.</summary>
public static class ControlPatterns
{
    /// <summary>The patterns of a point, in the order of their numbers.</summary>
    /// <param name="signals">Its signals.</param>
    public static IEnumerable<ControlPattern> Of(ControlSignals signals)
    {
        for (int rest = (int)signals; rest != 0; rest &= rest - 1)
        {
            yield return (ControlPattern)(BitOperations.TrailingZeroCount(rest) + 1);
        }
    }

    /// <summary>The signal of a pattern.</summary>
    /// <param name="pattern">A known pattern.</param>
    public static ControlSignals SignalOf(ControlPattern pattern) => (ControlSignals)(1 << ((int)pattern - 1));
}

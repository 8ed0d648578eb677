using ClearView.V1;

namespace ClearView.Plotting.Charts;

/// <summary>One reading of a run.</summary>
/// <param name="Reading">The reading.</param>
/// <param name="Value">The measurand's value.</param>
/// <param name="Index">Place in the run, from 0.</param>
internal sealed record RunPoint(ChartReading Reading, MeasuredValue Value, int Index)
{
    public double Number => Value.Value;

    /// <summary>Lower end of the value with its expanded uncertainty; the value itself where none is given.</summary>
    public double Low => Number - (Value.Uncertainty?.ExpandedUncertainty ?? 0);

    /// <summary>Upper end of the value with its expanded uncertainty; the value itself where none is given.</summary>
    public double High => Number + (Value.Uncertainty?.ExpandedUncertainty ?? 0);
}

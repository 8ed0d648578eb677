using ClearView.V1;

namespace ClearView.Plotting.Charts;

/// <summary>One reading of a run.</summary>
/// <param name="Reading">The reading.</param>
/// <param name="Value">The measurand's value.</param>
/// <param name="Index">Place in the run, from 0.</param>
internal sealed record RunPoint(ChartReading Reading, MeasuredValue Value, int Index)
{
    public double Number => Value.Value;
}

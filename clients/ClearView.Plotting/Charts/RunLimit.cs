namespace ClearView.Plotting.Charts;

/// <summary>Limit of one measurand; a value at a limit passes.</summary>
/// <param name="Minimum">Least value that passes, in the measurand's unit; <see langword="null"/> for none.</param>
/// <param name="Maximum">Greatest value that passes, in the measurand's unit; <see langword="null"/> for none.</param>
public sealed record RunLimit(double? Minimum, double? Maximum)
{
    /// <summary>Whether a value passes.</summary>
    /// <param name="value">The value, in the measurand's unit.</param>
    public bool Passes(double value) => !(value < Minimum) && !(value > Maximum);
}

namespace ClearView.Quality.Rolls;

/// <summary>A reading with its place on the web.</summary>
/// <param name="AcrossMm">Position across the web (CD), mm from its edge.</param>
/// <param name="AlongM">Position along the web (MD), m from its beginning.</param>
/// <param name="Value">The value, in the measurand's unit.</param>
public readonly record struct RollReading(double AcrossMm, double AlongM, double Value);

namespace ClearView.Records.Model;

/// <summary>One measurand's value, kept beside the payloads so that charts need not open them.</summary>
/// <param name="Measurand">Identifier of the measurand in the registry, for example "haze".</param>
/// <param name="Value">The value in the measurand's unit, unrounded; finite.</param>
public readonly record struct MeasurandValue(string Measurand, double Value);

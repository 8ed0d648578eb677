namespace ClearView.Optics.Tests.Generators;

/// <summary>Four readings of a sphere as an instrument could give them, with a change of the detector's scale.</summary>
/// <param name="Incident">T1.</param>
/// <param name="Total">T2, at most T1.</param>
/// <param name="InstrumentScatter">T3, a few percent of T1.</param>
/// <param name="SpecimenScatter">T4, between the instrument's share and T2.</param>
/// <param name="DetectorGain">Factor on all four.</param>
public sealed record SphereCase(
    double Incident, double Total, double InstrumentScatter, double SpecimenScatter, double DetectorGain);

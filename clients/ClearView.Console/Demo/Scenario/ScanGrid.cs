using ClearView.V1;

namespace ClearView.Console.Demo.Scenario;

/// <summary>The evenly spaced wavelengths of an invented scan.</summary>
/// <param name="StartNm">First wavelength, nm.</param>
/// <param name="StepNm">Interval, nm.</param>
/// <param name="Count">Number of wavelengths.</param>
internal sealed record ScanGrid(double StartNm, double StepNm, int Count)
{
    public double WavelengthNm(int index) => StartNm + (StepNm * index);

    public WavelengthGrid ToWire() => new()
    {
        Regular = new RegularGrid { StartNm = StartNm, StepNm = StepNm, Count = (uint)Count },
    };
}

using ClearView.Console.Rendering;
using ClearView.V1;

namespace ClearView.Console.Tests.Rendering;

public class NumberTextTests
{
    [Theory]
    [InlineData("haze", "%", 1.005, "1.00")]
    [InlineData("haze", "%", -0.001, "0.00")]
    [InlineData("haze", "%", 100, "100.00")]
    [InlineData("cielab_b", "", -12.345, "-12.35")]
    [InlineData("chromaticity_x", "", 0.31271, "0.3127")]
    [InlineData("dominant_wavelength", "nm", 576.04, "576.0")]
    public void Of_Value_HasTheDigitsThatArePrinted(string measurand, string unit, double value, string expected) =>
        Assert.Equal(expected, NumberText.Of(new MeasuredValue { Measurand = measurand, Unit = unit, Value = value }));
}

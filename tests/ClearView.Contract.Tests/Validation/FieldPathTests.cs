using ClearView.Contract.Validation;

namespace ClearView.Contract.Tests.Validation;

public sealed class FieldPathTests
{
    [Fact]
    public void ToString_Interpolated_ReadsAsTheStringWould()
    {
        string path = "measurement";
        int position = 12;

        Assert.Equal($"{path}.conditions.aperture_mm", Text($"{path}.conditions.aperture_mm"));
        Assert.Equal($"{path}.values[{position}]", Text($"{path}.values[{position}]"));
        Assert.Equal($"{path}.a[{position}].b[{position}].c", Text($"{path}.a[{position}].b[{position}].c"));
        Assert.Equal("", Text(""));
    }

    [Fact]
    public void ToString_Whole_IsTheString() => Assert.Equal("method", FieldPath.FromString("method").ToString());

    private static string Text(FieldPath path) => path.ToString();
}

using ClearView.Console.Judging;
using ClearView.V1;

namespace ClearView.Console.Tests.Judging;

public class LimitTests
{
    [Theory]
    [InlineData("haze<=2.0", "Haze ≤ 2.0 %")]
    [InlineData(" haze <= 2 % ", "Haze ≤ 2 %")]
    [InlineData("cielab_b>=-0.5", "CIELAB b* ≥ -0.5")]
    [InlineData("dominant_wavelength<=580 nm", "Dominant wavelength ≤ 580 nm")]
    public void TryParse_Limits_AreRead(string text, string expected)
    {
        Assert.True(Limit.TryParse(text, out var limit, out _));
        Assert.Equal(expected, limit.ToString());
    }

    [Theory]
    [InlineData("haze", "is not a limit")]
    [InlineData("haze<2", "is not a limit")]
    [InlineData("haze=2", "is not a limit")]
    [InlineData("haze<=2,0", "is not a limit")]
    [InlineData("haze<=NaN", "is not a limit")]
    [InlineData("<=2", "is not a limit")]
    [InlineData("hase<=2", "\"hase\" is not a measurand; there are luminous_transmittance")]
    [InlineData("haze<=2 nm", "haze is in %")]
    [InlineData("cielab_l<=2 %", "cielab_l has no unit")]
    public void TryParse_Others_AreRefused(string text, string expected)
    {
        Assert.False(Limit.TryParse(text, out _, out var fault));
        Assert.Contains(expected, fault, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("haze<=2.0", 2.0, "Pass")]
    [InlineData("haze<=2.0", 2.0000001, "Fail")]
    [InlineData("haze>=2.0", 2.0, "Pass")]
    [InlineData("haze>=2.0", 1.9999999, "Fail")]
    [InlineData("haze>=2.0", null, "Open")]
    public void Judge_UnroundedValue_IsCompared(string text, double? value, string expected)
    {
        Assert.True(Limit.TryParse(text, out var limit, out _));

        Assert.Equal(expected, limit.Judge(value).ToString());
    }

    [Theory]
    [InlineData(2.3, "Haze 2.30 % is above 2.0 %")]
    [InlineData(2.00004, "Haze 2.00004 % is above 2.0 %")]
    [InlineData(2.0, "Haze 2.00 % is not above 2.0 %")]
    [InlineData(1.0, "Haze 1.00 % is not above 2.0 %")]
    public void Reason_HasTheDigitsThatTellTheValueFromTheLimit(double value, string expected)
    {
        Assert.True(Limit.TryParse("haze<=2.0", out var limit, out _));

        var outcome = new LimitOutcome(limit, new MeasuredValue { Measurand = "haze", Unit = "%", Value = value }, limit.Judge(value));

        Assert.Equal(expected, outcome.Reason);
    }

    [Fact]
    public void Of_SeveralLimits_IsAsBadAsTheWorst()
    {
        Assert.True(Limit.TryParse("haze<=2.0", out var haze, out _));
        Assert.True(Limit.TryParse("cielab_b<=1", out var yellow, out _));
        var evaluation = new Evaluation { Values = { new MeasuredValue { Measurand = "haze", Unit = "%", Value = 3 } } };

        Assert.Null(LimitsVerdict.Of(evaluation, []));
        Assert.Equal(Judgement.Fail, LimitsVerdict.Of(evaluation, [haze, yellow])!.Judgement);
        Assert.Equal(Judgement.Open, LimitsVerdict.Of(evaluation, [yellow])!.Judgement);
    }
}

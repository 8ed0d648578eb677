using System.Collections.Immutable;

using ClearView.Optics.Colorimetry;
using ClearView.Quality.Specifications;

namespace ClearView.Quality.Tests.Specifications;

public sealed class SpecificationCheckTests
{
    private static readonly SpecificationDraft Draft = new()
    {
        Product = "lidding film 40",
        MethodName = "film-d65",
        RequiredSpecimens = 3,
        Limits = [new LimitDraft("haze") { Upper = 2 }, new LimitDraft("light_barrier_maximum_transmittance") { Upper = 10 }],
    };

    [Fact]
    public void Of_SoundDraft_IsASpecification()
    {
        SpecificationCheck check = SpecificationCheck.Of(Draft);

        Assert.True(check.IsValid);
        Assert.Empty(check.Errors);
        Assert.Equal(["haze", "light_barrier_maximum_transmittance"], check.Specification.Limits.Select(limit => limit.Measurand.Id));
    }

    [Theory]
    [InlineData(1.0, 2.0, 1.5, null)]
    [InlineData(2.0, 2.0, null, "limits[0].lower")]
    [InlineData(2.1, 2.0, null, "limits[0].lower")]
    [InlineData(null, null, null, "limits[0]")]
    [InlineData(double.NaN, 2.0, null, "limits[0].lower")]
    [InlineData(null, double.PositiveInfinity, null, "limits[0].upper")]
    [InlineData(1.0, 2.0, 1.0, null)]
    [InlineData(1.0, 2.0, 2.0, null)]
    [InlineData(1.0, 2.0, 2.1, "limits[0].target")]
    [InlineData(1.0, 2.0, 0.9, "limits[0].target")]
    public void Of_Limits_NameTheFieldThatCannotStand(double? lower, double? upper, double? target, string? field)
    {
        SpecificationCheck check = SpecificationCheck.Of(Draft with { Limits = [new LimitDraft("haze") { Lower = lower, Upper = upper, Target = target }] });

        Assert.Equal(field, check.Errors.FirstOrDefault()?.Field);
        Assert.Equal(field is null, check.IsValid);
    }

    [Fact]
    public void Of_EverythingWrong_NamesEveryField()
    {
        SpecificationCheck check = SpecificationCheck.Of(new SpecificationDraft
        {
            Version = 0,
            MethodVersion = 0,
            RequiredSpecimens = 0,
            Limits =
            [
                new LimitDraft("gloss") { Upper = 1 },
                new LimitDraft("haze") { Upper = 1 },
                new LimitDraft("haze") { Upper = 1 },
                new LimitDraft("cielab_l") { Upper = 1, Reference = new ColourReference("", new CieLab(90, 0, double.NaN)) },
            ],
        });

        Assert.Equal(
            [
                "product", "version", "method_name", "method_version", "required_specimen_count",
                "limits[0].measurand", "limits[2].measurand",
                "limits[3].reference_name", "limits[3].reference_name", "limits[3].reference_colour",
            ],
            check.Errors.Select(error => error.Field));
    }

    [Fact]
    public void Of_NoLimits_IsRefused()
    {
        Assert.Equal("limits", Assert.Single(SpecificationCheck.Of(Draft with { Limits = [] }).Errors).Field);
        Assert.Equal("limits", Assert.Single(SpecificationCheck.Of(Draft with { Limits = default(ImmutableArray<LimitDraft>) }).Errors).Field);
    }
}

using ClearView.Contract.Tests;
using ClearView.V1;

namespace ClearView.Server.Tests.Services;

/// <summary>Sound requests about specifications, for tests to spoil.</summary>
internal static class DecisionExamples
{
    /// <summary>Haze at most 3 % under the built-in ASTM method, simple acceptance.</summary>
    public static Specification Film(double hazeUpper = 3) => new()
    {
        Product = "clear 25",
        ProductKind = ProductKind.Film,
        MethodName = new MethodName { Name = "astm" },
        RequiredSpecimenCount = 1,
        DecisionRule = new DecisionRule { SimpleAcceptance = new SimpleAcceptance() },
        Limits = { new SpecificationLimit { Measurand = "haze", Upper = hazeUpper } },
    };

    public static StoreSpecificationRequest Store(string name, Specification specification) => new()
    {
        Name = name,
        Description = "clear film of line 3",
        Specification = specification,
        StoredBy = "M. Arden",
    };

    /// <summary>A post that is judged under a specification, whose method is taken. Haze is 100 × diffuse/0.9 %.</summary>
    public static PostReadingRequest Post(string specification, double diffuse = 0.018, string id = "0190d3c4-0000-7000-8000-000000000001")
    {
        var measurement = WireExamples.Normalised(0.9, diffuse);
        measurement.Identification.Product = "clear 25";
        return new PostReadingRequest
        {
            ReadingId = id,
            Measurement = measurement,
            SpecificationName = new SpecificationName { Name = specification },
        };
    }
}

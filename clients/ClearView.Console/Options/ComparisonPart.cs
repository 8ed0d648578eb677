using System.CommandLine;

using ClearView.Console.Commands;
using ClearView.V1;

namespace ClearView.Console.Options;

/// <summary>The options that state what colour and yellowness are compared with.</summary>
internal sealed class ComparisonPart : IMethodPart
{
    private const double MostFactor = 10;

    private readonly CheckedOption<double[]> _reference = new(
        "--reference", "L,a,b", "Colour that differences are taken against, in CIELAB under the colour pair, for example 96.5,-0.2,0.8.",
        text => Numerals.ReadList(text, ',', 3), "write L*,a*,b*, for example 96.5,-0.2,0.8");

    private readonly CheckedOption<double[]> _factors = new(
        "--difference-factors", "kL,kC,kH", "Parametric factors of CIE94 and CIEDE2000. [default: 1,1,1]",
        text => Factors(text, ',', 3), "write kL,kC,kH, each above 0 up to 10, for example 2,1,1");

    private readonly CheckedOption<double[]> _cmc = new(
        "--cmc", "l:c", "Factors of the CMC difference. [default: 2:1]",
        text => Factors(text, ':', 2), "write l:c, each above 0 up to 10, for example 2:1");

    private readonly CheckedOption<Metamerism> _metamerism = new(
        "--metamerism", "LIGHT=L,a,b", "Second light, and the reference colour under it, for the metamerism index, for example A=96.4,0.1,0.9.",
        ReadMetamerism, "write ILLUMINANT=L*,a*,b*, for example A=96.4,0.1,0.9");

    private readonly CheckedOption<double[]> _initialYellowness = new(
        "--initial-yellowness", "NUMBER", "Initial yellowness index that the change in yellowness is taken against.",
        text => Numerals.ReadWithin(text, -1000, 1000), "write a number from -1000 to 1000");

    /// <inheritdoc/>
    public string Heading => "Comparison";

    /// <inheritdoc/>
    public IReadOnlyList<Option> Options => [_reference.Option, _factors.Option, _cmc.Option, _metamerism.Option, _initialYellowness.Option];

    /// <inheritdoc/>
    public void Apply(ParseResult parsed, Method method)
    {
        if (_reference.Resolve(parsed) is { } reference)
        {
            method.ReferenceColour = new CielabColour { LStar = reference[0], AStar = reference[1], BStar = reference[2] };
        }
        var factors = _factors.Resolve(parsed);
        var cmc = _cmc.Resolve(parsed);
        if (factors is not null || cmc is not null)
        {
            RequireReference(method, factors is null ? "--cmc" : "--difference-factors");
            var held = method.DifferenceFactors ?? new DifferenceFactors { Lightness = 1, Chroma = 1, Hue = 1, CmcLightness = 2, CmcChroma = 1 };
            method.DifferenceFactors = new DifferenceFactors
            {
                Lightness = factors?[0] ?? held.Lightness,
                Chroma = factors?[1] ?? held.Chroma,
                Hue = factors?[2] ?? held.Hue,
                CmcLightness = cmc?[0] ?? held.CmcLightness,
                CmcChroma = cmc?[1] ?? held.CmcChroma,
            };
        }
        if (_metamerism.Resolve(parsed) is { } metamerism)
        {
            RequireReference(method, "--metamerism");
            metamerism.TestLight.Observer = method.Colour?.Observer ?? Observer.Unspecified;
            method.Metamerism = metamerism;
        }
        if (_initialYellowness.Resolve(parsed) is [var initial])
        {
            method.InitialYellownessIndex = initial;
        }
    }

    private static double[]? Factors(string text, char separator, int count) =>
        Numerals.ReadList(text, separator, count) is { } factors && factors.All(factor => factor is > 0 and <= MostFactor) ? factors : null;

    private static Metamerism? ReadMetamerism(string text) =>
        text.Split('=') is [var light, var colour] && Pairs.ReadIlluminant(light) is { } illuminant && Numerals.ReadList(colour, ',', 3) is [var l, var a, var b]
            ? new Metamerism
            {
                TestLight = new LightAndObserver { Illuminant = illuminant },
                ReferenceColour = new CielabColour { LStar = l, AStar = a, BStar = b },
            }
            : null;

    private static void RequireReference(Method method, string option)
    {
        if (method.ReferenceColour is null)
        {
            throw new UsageException($"{option} needs a colour to compare with: give --reference L,a,b too");
        }
    }
}

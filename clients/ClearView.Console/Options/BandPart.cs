using System.CommandLine;

using ClearView.V1;

namespace ClearView.Console.Options;

/// <summary>The options that state bands of one's own and the light-barrier screen.</summary>
internal sealed class BandPart : IMethodPart
{
    private const double FirstNm = 200;
    private const double LastNm = 1100;

    private readonly CheckedOption<WavelengthBand> _bands = new(
        "--band", "FROM-TO", "A band of your own beside the named ones, nm, for example 400-450; repeatable.", ReadBand,
        "write FROM-TO in nm, ascending within 200-1100, for example 400-450", repeatable: true);

    private readonly CheckedOption<double[]> _lightBarrier = new(
        "--light-barrier-limit", "PERCENT", "Screen the greatest transmittance over 290-450 nm against this limit, %. No compendial test.",
        text => Numerals.ReadWithin(text, double.Epsilon, 100), "write a number of percent above 0 up to 100");

    /// <inheritdoc/>
    public string Heading => "Bands";

    /// <inheritdoc/>
    public IReadOnlyList<Option> Options => [_bands.Option, _lightBarrier.Option];

    /// <inheritdoc/>
    public void Apply(ParseResult parsed, Method method)
    {
        if (_bands.ResolveAll(parsed) is { Count: > 0 } bands)
        {
            method.Bands.Clear();
            method.Bands.Add(bands);
        }
        if (_lightBarrier.Resolve(parsed) is [var limit])
        {
            method.LightBarrierLimitPercent = limit;
        }
    }

    private static WavelengthBand? ReadBand(string text) =>
        Numerals.ReadList(text, '-', 2) is [>= FirstNm and var from, <= LastNm and var to] && from < to
            ? new WavelengthBand { FromNm = from, ToNm = to }
            : null;
}

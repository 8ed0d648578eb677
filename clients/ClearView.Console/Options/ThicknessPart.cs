using System.CommandLine;

using ClearView.Console.Commands;
using ClearView.Optics.Transmission.Thickness;

using Method = ClearView.V1.Method;
using ReferenceThickness = ClearView.V1.ReferenceThickness;
using RefractiveIndexTable = ClearView.V1.RefractiveIndexTable;

namespace ClearView.Console.Options;

/// <summary>The options that state the thickness that values are scaled to.</summary>
internal sealed class ThicknessPart : IMethodPart
{
    private const double MostUm = 100_000;

    private static readonly string Resins = string.Join(", ", Resin.All.Select(resin => resin.Id));

    private readonly CheckedOption<double[]> _thickness = new(
        "--thickness", "UM", "Thickness in µm that total transmittance, colour and yellowness are scaled to; needs --resin or --refractive-index.",
        text => Numerals.ReadWithin(text, double.Epsilon, MostUm), "write a thickness in µm, above 0 up to 100000");

    private readonly CheckedOption<string> _resin = new(
        "--resin", "NAME", $"Resin, for its refractive index: {Resins}.", text => Resin.TryFind(text, out var resin) ? resin.Id : null, $"there are {Resins}");

    private readonly CheckedOption<string> _index = new(
        "--refractive-index", "NUMBER|FILE", "Refractive index instead of --resin, or a CSV file: wavelength in nm and refractive index.",
        text => Numerals.Read(text) is not { } number ? (text.Length > 0 ? text : null) : number is > 1 and <= 3 ? text : null,
        "write a number above 1 up to 3, or name a file");

    /// <inheritdoc/>
    public string Heading => "Thickness";

    /// <inheritdoc/>
    public IReadOnlyList<Option> Options => [_thickness.Option, _resin.Option, _index.Option];

    /// <inheritdoc/>
    public void Apply(ParseResult parsed, Method method)
    {
        var resin = _resin.Resolve(parsed);
        var index = _index.Resolve(parsed);
        if (resin is not null && index is not null)
        {
            throw new UsageException("--resin and --refractive-index both state the refractive index; give one");
        }
        if (_thickness.Resolve(parsed) is [var thickness])
        {
            method.ReferenceThickness = method.ReferenceThickness?.Clone() ?? new ReferenceThickness();
            method.ReferenceThickness.ThicknessUm = thickness;
        }
        if (method.ReferenceThickness is not { } reference)
        {
            if (resin is not null || index is not null)
            {
                throw new UsageException($"{(resin is null ? "--refractive-index" : "--resin")} needs a thickness to scale to: give --thickness UM too");
            }
            return;
        }
        if (resin is not null)
        {
            reference.Resin = resin;
        }
        else if (index is not null && Numerals.Read(index) is { } number)
        {
            reference.RefractiveIndex = number;
        }
        else if (index is not null)
        {
            var table = TwoColumnFile.Read(index, "refractive index");
            reference.Table = new RefractiveIndexTable { WavelengthNm = { table.WavelengthsNm }, RefractiveIndex = { table.Values } };
        }
        if (reference.IndexCase == ReferenceThickness.IndexOneofCase.None)
        {
            throw new UsageException($"--thickness needs a refractive index: give --resin ({Resins}) or --refractive-index NUMBER too");
        }
    }
}

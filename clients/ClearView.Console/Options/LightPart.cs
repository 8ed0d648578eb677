using System.CommandLine;

using ClearView.Console.Commands;
using ClearView.V1;

namespace ClearView.Console.Options;

/// <summary>The options that state standard, lights, observers and yellowness indices.</summary>
internal sealed class LightPart : IMethodPart
{
    private static readonly Dictionary<string, HazeStandard> Standards = new(StringComparer.Ordinal)
    {
        ["astm-d1003-a"] = HazeStandard.AstmD1003ProcedureA,
        ["astm-d1003-b"] = HazeStandard.AstmD1003ProcedureB,
        ["iso-14782-13468-1"] = HazeStandard.Iso14782Iso134681,
        ["iso-14782-13468-2"] = HazeStandard.Iso14782Iso134682,
    };

    private static readonly Dictionary<string, YellownessIndex> Indices = new(StringComparer.Ordinal)
    {
        ["e313"] = YellownessIndex.AstmE313,
        ["d1925"] = YellownessIndex.AstmD1925,
        ["iso17223"] = YellownessIndex.Iso17223,
    };

    private static readonly string PairExpected = $"write ILLUMINANT/OBSERVER, for example D65/10 ({Pairs.Illuminants} or lamp; 2 or 10)";

    private readonly CheckedOption<object> _standard = new(
        "--haze-standard", "STANDARD", $"Standard of haze and luminous transmittance: {string.Join(", ", Standards.Keys)}.",
        text => Standards.TryGetValue(text, out var standard) ? standard : null,
        $"there are {string.Join(", ", Standards.Keys)}");

    private readonly CheckedOption<LightAndObserver> _luminous = new(
        "--luminous", "PAIR", "Illuminant and observer of haze and luminous transmittance, for example C/2, D65/2.", Pairs.Parse, PairExpected);

    private readonly CheckedOption<LightAndObserver> _colour = new(
        "--colour", "PAIR", "Illuminant and observer of the colour, for example D65/10.", Pairs.Parse, PairExpected);

    private readonly CheckedOption<string> _illuminant = new(
        "--illuminant", "NAME", $"Illuminant of both, where no pair states it: {Pairs.Illuminants}.", Pairs.ReadIlluminant, $"there are {Pairs.Illuminants}");

    private readonly CheckedOption<object> _observer = new(
        "--observer", "DEGREES", "Observer of both, where no pair states it: 2 (CIE 1931) or 10 (CIE 1964).", text => Pairs.ReadObserver(text), "write 2 or 10");

    private readonly CheckedOption<string> _lamp = new(
        "--lamp", "FILE", "A lamp of your own instead of --illuminant: CSV, wavelength in nm and relative power. In a pair it is \"lamp\", for example lamp/10.",
        text => text.Length > 0 ? text : null, "name a file");

    private readonly CheckedOption<IReadOnlyList<YellownessIndex>> _yellowness = new(
        "--yellowness", "INDICES", "Yellowness indices, separated by commas: e313, iso17223, d1925 (withdrawn); or none.", ParseIndices,
        $"write {string.Join(", ", Indices.Keys)} (separated by commas, each once) or none");

    /// <inheritdoc/>
    public string Heading => "Method";

    /// <inheritdoc/>
    public IReadOnlyList<Option> Options =>
        [_standard.Option, _luminous.Option, _colour.Option, _illuminant.Option, _observer.Option, _lamp.Option, _yellowness.Option];

    /// <inheritdoc/>
    public void Apply(ParseResult parsed, Method method)
    {
        if (_standard.Resolve(parsed) is HazeStandard standard)
        {
            method.HazeStandard = standard;
        }
        if (_yellowness.Resolve(parsed) is { } indices)
        {
            method.YellownessIndices.Clear();
            method.YellownessIndices.Add(indices);
        }
        var luminous = _luminous.Resolve(parsed);
        var colour = _colour.Resolve(parsed);
        var illuminant = _illuminant.Resolve(parsed);
        var observer = (Observer?)_observer.Resolve(parsed);
        if (luminous is not null && colour is not null && (illuminant is not null || observer is not null))
        {
            throw new UsageException($"{(illuminant is null ? "--observer" : "--illuminant")} has nothing to state beside --luminous and --colour; leave out one of the three");
        }
        method.Luminous = State(method.Luminous, luminous, illuminant, observer);
        method.Colour = State(method.Colour, colour, illuminant, observer);
        ApplyLamp(_lamp.Resolve(parsed), method, illuminant, luminous, colour);
    }

    private static LightAndObserver? State(LightAndObserver? held, LightAndObserver? pair, string? illuminant, Observer? observer)
    {
        if (pair is not null)
        {
            return pair;
        }
        if (illuminant is null && observer is null)
        {
            return held;
        }
        var stated = held?.Clone() ?? new LightAndObserver();
        if (illuminant is not null)
        {
            stated.Illuminant = illuminant;
            stated.SpectralPower = null;
        }
        stated.Observer = observer ?? stated.Observer;
        return stated;
    }

    private static void ApplyLamp(string? file, Method method, string? illuminant, LightAndObserver? luminous, LightAndObserver? colour)
    {
        LightAndObserver[] named = [.. new[] { luminous, colour }.OfType<LightAndObserver>().Where(pair => pair.Illuminant == Pairs.Lamp)];
        if (file is null)
        {
            if (named.Length > 0)
            {
                throw new UsageException("a pair names the lamp, but --lamp FILE does not give its spectral power");
            }
            return;
        }
        if (illuminant is not null)
        {
            throw new UsageException("--lamp and --illuminant both state the light; give one, or name the lamp in a pair, for example --colour lamp/10");
        }
        if (named.Length == 0 && luminous is not null && colour is not null)
        {
            throw new UsageException("--lamp has nothing to light: name it in a pair, for example --colour lamp/10, or leave out --luminous or --colour");
        }
        var table = TwoColumnFile.Read(file, "relative power");
        if (named.Length == 0)
        {
            // The pairs that the command line does not state.
            method.Luminous = luminous ?? method.Luminous ?? new LightAndObserver();
            method.Colour = colour ?? method.Colour ?? new LightAndObserver();
            named = [.. new[] { (luminous, method.Luminous), (colour, method.Colour) }.Where(one => one.Item1 is null).Select(one => one.Item2)];
        }
        foreach (var pair in named)
        {
            pair.Illuminant = Path.GetFileNameWithoutExtension(file);
            pair.SpectralPower = new SpectralPower { WavelengthNm = { table.WavelengthsNm }, RelativePower = { table.Values } };
        }
    }

    private static List<YellownessIndex>? ParseIndices(string text)
    {
        if (text == "none")
        {
            return [];
        }
        var parts = text.Split(',', StringSplitOptions.TrimEntries);
        return parts.All(Indices.ContainsKey) && parts.Distinct(StringComparer.Ordinal).Count() == parts.Length
            ? [.. parts.Select(part => Indices[part])]
            : null;
    }
}

using System.Collections.Immutable;
using System.Globalization;

using ClearView.Optics.Evaluations;
using ClearView.Plotting.Model;
using ClearView.V1;

using MeasuredValue = ClearView.V1.MeasuredValue;

namespace ClearView.Plotting.Charts;

/// <summary>The uncertainty budget of one reading: what each source contributes to each measurand, greatest first.</summary>
public static class BudgetChart
{
    /// <summary>Most measurands of one chart.</summary>
    public const int MostMeasurands = 6;

    private const int DefaultCount = 4;
    private const double BarHeight = 0.62;
    private const double NegligibleShare = 0.001;
    private const double TextShare = 0.34;
    private const float RowPt = 19;
    private const float PanelEdgesPt = 62;
    private const float OutsidePt = 150;
    private const string PerWavelength = "per wavelength";

    private static readonly ImmutableArray<Measurand> Preferred =
        [Measurands.Haze, Measurands.LuminousTransmittance, Measurands.YellownessIndexE313, Measurands.YellownessIndexD1925];

    private static readonly SeriesLook IndependentLook = new(LineKind.None, MarkKind.None, Ink.Blue) { Fill = FillKind.Solid };
    private static readonly SeriesLook SharedLook = new(LineKind.None, MarkKind.None, Ink.Vermilion) { Fill = FillKind.Hatched };

    /// <summary>Decides what the chart shows.</summary>
    /// <param name="reading">The specimen.</param>
    /// <param name="measurands">Identifiers of the measurands; empty for haze, luminous transmittance and yellowness, or what else has an uncertainty.</param>
    /// <exception cref="ChartRefusedException">No uncertainty was asked for, a measurand has none, or there are too many measurands.</exception>
    public static ChartModel Build(ChartReading reading, IReadOnlyList<string> measurands)
    {
        ArgumentNullException.ThrowIfNull(reading);
        ArgumentNullException.ThrowIfNull(measurands);
        MeasuredValue[] values = Choose(reading, measurands);
        float[] heights = [.. values.Select(value => PanelEdgesPt + (RowPt * value.Uncertainty.Budget.Count))];
        return new ChartModel
        {
            Title = "Uncertainty budget",
            Subtitle = Wording.Specimen(reading),
            Panels = [.. values.Select((value, i) => Panel(value) with { Weight = heights[i] })],
            HeightPt = heights.Sum() + OutsidePt,
            Notes = ChartNotes.Of([reading], [.. values.Select(value => value.Measurand)]),
            Footer =
            [
                "A bar is a source's standard uncertainty in the measurand's unit; the squares add up to u² (JCGM 100). In brackets: share of u².",
                $"Method: {string.Join("; ", values.GroupBy(Wording.Basis, StringComparer.Ordinal).Select(group => $"{string.Join(", ", group.Select(v => v.Symbol))}: {group.Key}"))}.",
                Wording.Source([reading]),
            ],
        };
    }

    private static MeasuredValue[] Choose(ChartReading reading, IReadOnlyList<string> measurands)
    {
        MeasuredValue[] uncertain = [.. reading.Evaluation.Values.Where(value => value.Uncertainty is { Budget.Count: > 0 })];
        if (uncertain.Length == 0)
        {
            throw new ChartRefusedException(
                $"Specimen {reading.Specimen} has no uncertainty budget. Choose a reading whose method states what is known of the "
                + "instrument's errors, or give --uncertainty with files.");
        }

        if (measurands.Count > MostMeasurands)
        {
            throw new ChartRefusedException($"{measurands.Count} measurands are too many for one chart; at most {MostMeasurands} are drawn.");
        }

        if (measurands.Count > 0)
        {
            return [.. measurands.Distinct(StringComparer.Ordinal).Select(id => uncertain.FirstOrDefault(value => value.Measurand == id)
                ?? throw new ChartRefusedException(
                    $"Specimen {reading.Specimen} has no uncertainty of \"{id}\". It has those of: {string.Join(", ", uncertain.Select(v => v.Measurand))}."))];
        }

        MeasuredValue[] preferred = [.. Preferred.Select(m => uncertain.FirstOrDefault(value => value.Measurand == m.Id)).OfType<MeasuredValue>()];
        return preferred.Length > 0 ? preferred : [.. uncertain.Take(DefaultCount)];
    }

    private static PanelModel Panel(MeasuredValue value)
    {
        Contribution[] sources = [.. value.Uncertainty.Budget.OrderByDescending(source => source.StandardUncertainty)];
        string unit = value.Unit.Length > 0 ? $" {value.Unit}" : "";
        double greatest = sources[0].StandardUncertainty;
        double right = greatest > 0 ? greatest / (1 - TextShare) : 1;
        return new PanelModel
        {
            Heading = Heading(value, unit),
            X = new AxisModel($"Contribution to u of {value.Name}{(unit.Length > 0 ? $" ({value.Unit})" : "")}", 0, right),
            Y = new AxisModel("Source", 0, sources.Length)
            {
                Ticks = [.. sources.Select((source, i) => new AxisTick(Middle(i, sources.Length), source.Source))],
            },
            Series =
            [
                Bars("independent at each wavelength", IndependentLook, sources, source => source.Correlation == PerWavelength),
                Bars("moves the whole spectrum", SharedLook, sources, source => source.Correlation != PerWavelength),
            ],
            Annotations =
            [
                .. sources.Select((source, i) => new AnnotationModel(
                    source.StandardUncertainty,
                    Middle(i, sources.Length),
                    Text(source, value.Uncertainty.StandardUncertainty, unit),
                    AnnotationAnchor.Right) { Transparent = true }),
            ],
        };
    }

    private static string Heading(MeasuredValue value, string unit)
    {
        Uncertainty uncertainty = value.Uncertainty;
        string freedom = uncertainty.HasEffectiveDegreesOfFreedom
            ? string.Create(CultureInfo.InvariantCulture, $", νeff = {uncertainty.EffectiveDegreesOfFreedom:0}")
            : "";
        string result = Digits.Beside(value.Value, uncertainty.ExpandedUncertainty);
        string coverage = new Coverage(uncertainty.CoverageFactor, uncertainty.CoveragePercent).Label["U, ".Length..];
        return $"{value.Name} {result}{unit}: combined u = {Digits.Two(uncertainty.StandardUncertainty)}{unit}, "
            + $"expanded U = {Digits.Two(uncertainty.ExpandedUncertainty)}{unit} ({coverage}{freedom})";
    }

    private static SeriesModel Bars(string label, SeriesLook look, Contribution[] sources, Func<Contribution, bool> belongs) => new()
    {
        Label = label,
        Look = look,
        Points = [],
        Bars =
        [
            .. sources
                .Select((source, i) => (Source: source, Middle: Middle(i, sources.Length)))
                .Where(pair => belongs(pair.Source))
                .Select(pair => new BarModel(0, pair.Source.StandardUncertainty, pair.Middle - (BarHeight / 2), pair.Middle + (BarHeight / 2))),
        ],
    };

    /// <summary>The greatest stands at the top.</summary>
    private static double Middle(int index, int count) => count - index - 0.5;

    /// <summary>Contribution with its share; one that cannot matter is not printed to its last zero.</summary>
    private static string Text(Contribution source, double combined, string unit)
    {
        string size = source.StandardUncertainty == 0 ? "none"
            : source.StandardUncertainty < NegligibleShare * combined ? "negligible"
            : Digits.Two(source.StandardUncertainty) + unit;
        return $"{size} ({Share(source.VarianceFraction)})";
    }

    private static string Share(double fraction) => fraction is > 0 and < 0.001
        ? "below 0.1 %"
        : string.Create(CultureInfo.InvariantCulture, $"{100 * fraction:0.#} %");
}

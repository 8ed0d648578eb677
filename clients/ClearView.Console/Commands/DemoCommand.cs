using System.Collections.Immutable;
using System.CommandLine;
using System.Text.Json.Nodes;

using ClearView.Console.Demo;
using ClearView.Console.Demo.Scenario;
using ClearView.Console.Judging;
using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Contract;
using ClearView.Contract.Methods;
using ClearView.Optics.Evaluations;
using ClearView.Plotting.Charts;

using Spectre.Console;

using Reading = ClearView.V1.Reading;

namespace ClearView.Console.Commands;

/// <summary>Shows the main job from raw scans to charts, on invented data and a store that is gone afterwards.</summary>
internal sealed class DemoCommand : DocumentedCommand
{
    private static readonly ImmutableArray<Limit> FilmLimits =
        [Read("haze<=3.0"), Read("luminous_transmittance>=89"), Read("yellowness_index_e313<=1.5")];

    private const double BarrierLimitPercent = 10;

    private static readonly DateTimeOffset ShiftStart = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);

    private readonly Option<string?> _output = new("--output")
    {
        HelpName = "FOLDER",
        Description = "Folder that the charts are written to, created where it is missing. [default: a new folder among the temporary files]",
    };

    private readonly Option<string?> _store = new("--store")
    {
        HelpName = "FILE",
        Description = "Keep the store in this new file, to serve and try things on. [default: a store that is gone afterwards]",
    };

    private readonly JsonOption _json = new();
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public DemoCommand(Screen screen)
        : base(
            "demo",
            "Run the main job on invented data: post a film shift, a bottle set and a resin trial to a server of its own, judge and compare them, draw the charts.",
            [
                "clearview demo",
                "clearview demo --store demo.db --output charts",
                "clearview demo --json",
            ])
    {
        _screen = screen;
        Add(_output);
        Add(_store);
        _json.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var method = StateMethod();
        var result = await DemoRun.RunAsync(_screen, method, BarrierLimitPercent, ShiftStart, NewStore(parsed.GetValue(_store)), cancellation);
        var (film, bottles) = (result.Film, result.Bottles);
        var barrier = EvaluateBarrier(method);
        var charts = WriteCharts(parsed.GetValue(_output), result, barrier);
        ImmutableArray<SpecimenResult> failing =
        [
            .. film.Select(reading => new SpecimenResult
            {
                Measurement = reading.Measurement,
                Evaluation = reading.Evaluation,
                Reading = reading,
                Verdict = LimitsVerdict.Of(reading.Evaluation, FilmLimits),
            }).Where(result => result.Verdict!.Judgement != Judgement.Pass),
        ];
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(_screen, new JsonObject
            {
                ["method"] = JsonText.OfMessage(method),
                ["filmReadings"] = film.Length,
                ["bottleReadings"] = bottles.Length,
                ["failing"] = new JsonArray([.. failing.Select(JsonText.OfFileResult)]),
                ["signals"] = new JsonArray([.. result.Signals.Select(one => JsonText.OfMessage(one.Signal))]),
                ["capability"] = JsonText.OfMessage(result.Capability),
                ["rollMap"] = JsonText.OfMessage(result.RollMap),
                ["lots"] = JsonText.OfMessage(result.Lots),
                ["bottle"] = JsonText.OfMessage(result.Bottle),
                ["barrier"] = new JsonArray([.. barrier.Select(one => JsonText.OfMessage(one.Evaluation))]),
                ["charts"] = new JsonArray([.. charts.Select(path => (JsonNode)path)]),
            });
            return ExitCode.Ok;
        }

        ShowFilm(film, failing, method);
        DemoScreens.ShowLine(_screen, result);
        ShowBottles(bottles);
        ShowBarrier(barrier);
        DemoScreens.ShowPackaging(_screen, result);
        DemoScreens.ShowLab(_screen, result);
        ShowCharts(charts);
        return ExitCode.Ok;
    }

    private static string? NewStore(string? file)
    {
        if (file is null)
        {
            return null;
        }

        var path = Path.GetFullPath(file);
        return File.Exists(path) ? throw new UsageException($"--store: {path} exists already; name a new file.")
            : Directory.Exists(Path.GetDirectoryName(path)) ? path
            : throw new UsageException($"--store: the folder of {path} does not exist; create it first.");
    }

    private static IReadOnlyList<string> WriteCharts(
        string? output,
        DemoResult result,
        ImmutableArray<(V1.Measurement Measurement, V1.Evaluation Evaluation)> barrier)
    {
        var folder = output is null ? Directory.CreateTempSubdirectory("clearview-demo-").FullName : Path.GetFullPath(output);
        try
        {
            return
            [
                .. DemoChartSet.Write(
                folder,
                [.. result.Film.Select(ChartReading.FromStored)],
                [.. result.Bottles.Select(ChartReading.FromStored)],
                [.. barrier.Select(one => new ChartReading(one.Measurement, one.Evaluation, $"specimen {one.Measurement.Identification.Specimen}"))],
                new RunLimit(null, FilmLimits[0].Value),
                new RunLimit(null, FilmLimits[2].Value)),
                .. DemoScreens.WriteCharts(folder, result),
            ];
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new UsageException($"--output: the charts cannot be written to {folder}: {e.Message}");
        }
    }

    private void ShowFilm(ImmutableArray<Reading> film, ImmutableArray<SpecimenResult> failing, V1.Method method)
    {
        _screen.Line("[bold]Film shift[/], invented: "
            + $"{VerdictText.Counted(film.Length, "reading")} posted, evaluated, stored and listed again");
        MethodPanel.Write(_screen, method, FilmLimits);
        GroupSummary.Write(_screen, "Roll", film, reading => reading.Measurement.Identification.Roll, FilmLimits);
        _screen.Line($"[bold]Failing specimens[/]: {VerdictText.Counted(failing.Length, "specimen")}");
        var notebook = new Notebook();
        SpecimenTable.Write(
            _screen,
            failing,
            [
                ("Specimen", result => result.Specimen),
                ("Roll", result => result.Measurement.Identification.Roll),
                ("Across\nmm", result => NumberText.Plain(result.Measurement.Identification.Web.AcrossMm)),
                ("Along\nm", result => NumberText.Plain(result.Measurement.Identification.Web.AlongM)),
            ],
            FilmLimits,
            notebook,
            [("Fails", result => string.Join(", ", result.Verdict!.Outcomes.Where(o => o.Judgement != Judgement.Pass).Select(o => o.Limit.Measurand.Symbol)))],
            [Measurands.LuminousTransmittance, Measurands.Haze, Measurands.YellownessIndexE313]);
        notebook.Write(_screen, failing.Length);
        _screen.Line();
    }

    private void ShowBottles(ImmutableArray<Reading> bottles)
    {
        _screen.Line("[bold]Bottle set[/], invented: "
            + $"{VerdictText.Counted(bottles.Length, "reading")}, by product and region of the wall");
        GroupSummary.Write(
            _screen,
            "Product and region",
            [.. bottles.OrderBy(GroupOf, StringComparer.Ordinal)],
            GroupOf,
            []);

        static string GroupOf(Reading reading) =>
            $"{reading.Measurement.Identification.Product}, {ConditionsText.Region(reading.Measurement.Identification.Wall.Region)}";
    }

    private static V1.Method StateMethod()
    {
        var method = BuiltInMethods.Find("astm")!.Method.Clone();
        method.Uncertainty = new V1.UncertaintyInputs
        {
            CoveragePercent = 95,
            RepeatabilityPercent = 0.05,
            ZeroOffsetPercent = 0.02,
            HundredLineDriftPercent = 0.1,
            WavelengthShiftNm = 0.2,
        };
        return method;
    }

    private static ImmutableArray<(V1.Measurement Measurement, V1.Evaluation Evaluation)> EvaluateBarrier(V1.Method basis)
    {
        var method = basis.Clone();
        method.LightBarrierLimitPercent = BarrierLimitPercent;
        return
        [
            .. BottleSet.GenerateUltraviolet(DemoRun.Seed, ShiftStart).Select(measurement => (
                measurement,
                MeasurementEvaluator.Evaluate(measurement, method, TimeProvider.System).Evaluation
                    ?? throw new InvalidOperationException("An invented measurement was refused."))),
        ];
    }

    private void ShowBarrier(ImmutableArray<(V1.Measurement Measurement, V1.Evaluation Evaluation)> barrier)
    {
        _screen.Line("[bold]Light barrier of the panel[/], scanned from 290 nm, with uncertainty; nothing of it is stored");
        foreach (var (measurement, evaluation) in barrier)
        {
            var values = evaluation.Values.Where(value => value.Measurand == Measurands.LuminousTransmittance.Id || value.Measurand == Measurands.Haze.Id);
            _screen.Line(Markup.Escape($"  {measurement.Identification.Product}: "
                + string.Join(", ", values.Select(value => $"{value.Symbol} = {NumberText.Of(value)} {NumberText.Expanded(value)} {value.Unit}"))));
            if (evaluation.LightBarrier is { } screened)
            {
                _screen.Line($"    {FindingsText.LightBarrier(screened)}");
            }
        }
        _screen.Line(Markup.Escape($"  {BudgetText.Coverage(barrier.SelectMany(one => one.Evaluation.Values).Select(value => value.Uncertainty))}"));
        _screen.Line();
    }

    private void ShowCharts(IReadOnlyList<string> charts)
    {
        _screen.Line($"[bold]Charts[/]: {VerdictText.Counted(charts.Count, "file")} (PNG and SVG) in");
        _screen.Line($"  {Markup.Escape(Path.GetDirectoryName(charts[0])!)}");
        _screen.Line("The limits are examples. Release of food or pharma packaging follows the applicable pharmacopoeia,");
        _screen.Line("local codes and qualified staff, never a figure alone.");
    }

    private static Limit Read(string text) =>
        Limit.TryParse(text, out var limit, out var fault) ? limit : throw new InvalidOperationException(fault);
}

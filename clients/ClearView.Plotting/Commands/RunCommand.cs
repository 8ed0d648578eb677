using System.CommandLine;

using ClearView.Optics.Evaluations;
using ClearView.Plotting.Charts;

namespace ClearView.Plotting.Commands;

/// <summary>Draws one measurand of a run against its limit.</summary>
internal sealed class RunCommand : ChartCommand
{
    private const string Text = """
        One measurand of a run against its limit, reading by reading, roll by roll.

        Examples:
          chart run --line "Line 2" --from 2026-03-03 --max 3.0
          chart run scans/ --method astm --measurand luminous_transmittance --min 90
        """;

    private readonly Option<string> _measurand = new("--measurand")
    {
        HelpName = "ID",
        DefaultValueFactory = _ => Measurands.Haze.Id,
        Description = $"What to show: {MeasurandOption.Known}.",
    };

    private readonly Option<double?> _minimum = new("--min") { HelpName = "NUMBER", Description = "Least value that passes, in the measurand's unit." };
    private readonly Option<double?> _maximum = new("--max") { HelpName = "NUMBER", Description = "Greatest value that passes, in the measurand's unit." };

    public RunCommand(TimeProvider clock, IMethodChoice method)
        : base("run", Text, clock, method, needsSpectra: false)
    {
        _measurand.Validators.Add(result =>
        {
            if (result.GetValueOrDefault<string>() is { } id && !MeasurandOption.IsKnown(id))
            {
                result.AddError(MeasurandOption.Fault(id));
            }
        });
        Add(_measurand);
        Add(_minimum);
        Add(_maximum);
    }

    protected override bool Draw(ParseResult parsed, IReadOnlyList<ChartReading> readings)
    {
        string measurand = parsed.GetRequiredValue(_measurand);
        double? minimum = parsed.GetValue(_minimum);
        double? maximum = parsed.GetValue(_maximum);
        if (minimum > maximum)
        {
            throw new ChartRefusedException($"--min {Wording.Number(minimum.Value)} is above --max {Wording.Number(maximum.Value)}.");
        }

        RunLimit? limit = minimum is null && maximum is null ? null : new RunLimit(minimum, maximum);
        Output.Write(parsed, RunChart.Build(readings, measurand, limit), $"run-{measurand}");
        return limit is null || readings.All(reading => reading.Find(measurand) is not { } value || limit.Passes(value.Value));
    }
}

using ClearView.Contract;
using ClearView.V1;

namespace ClearView.Console.Tests.Demo.Scenario;

/// <summary>Values of invented measurements, through the real evaluation.</summary>
internal static class ScenarioValues
{
    public static readonly DateTimeOffset Start = new(2026, 3, 3, 6, 0, 0, TimeSpan.Zero);

    private static readonly Method Method = new()
    {
        HazeStandard = HazeStandard.AstmD1003ProcedureB,
        Luminous = new LightAndObserver { Illuminant = "C", Observer = Observer.Cie19312Deg },
        Colour = new LightAndObserver { Illuminant = "D65", Observer = Observer.Cie196410Deg },
        YellownessIndices = { YellownessIndex.AstmE313 },
    };

    public static Evaluation Evaluate(Measurement measurement)
    {
        EvaluationOutcome outcome = MeasurementEvaluator.Evaluate(measurement, Method, TimeProvider.System);
        Assert.True(outcome.IsAccepted, string.Join("; ", outcome.Violations));
        return outcome.Evaluation;
    }

    public static double Value(Measurement measurement, string measurand) =>
        Evaluate(measurement).Values.Single(value => value.Measurand == measurand).Value;
}

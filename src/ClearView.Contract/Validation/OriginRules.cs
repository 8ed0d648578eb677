using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Contract.Validation;

/// <summary>Rules for what a post says of its making, and of what it corrects.</summary>
public static class OriginRules
{
    private const int LongestRemark = 200;

    /// <summary>Checks an origin.</summary>
    /// <param name="origin">The origin; <see langword="null"/> is right.</param>
    /// <param name="path">Path of the field.</param>
    /// <param name="clock">The clock that times may not be far ahead of.</param>
    /// <param name="violations">Takes what is at fault.</param>
    public static void Check(Origin? origin, string path, TimeProvider clock, Violations violations)
    {
        if (origin is null)
        {
            return;
        }

        violations.CheckText($"{path}.person", origin.Person);
        violations.CheckText($"{path}.station", origin.Station);
        violations.CheckText($"{path}.client_software", origin.ClientSoftware);
        if (origin.InstrumentState is { } state)
        {
            Check(state, $"{path}.instrument_state", clock, violations);
        }
    }

    /// <summary>Checks a correction, but for what only the store knows.</summary>
    /// <param name="correction">The correction; <see langword="null"/> is right.</param>
    /// <param name="path">Path of the field.</param>
    /// <param name="violations">Takes what is at fault.</param>
    public static void Check(Correction? correction, string path, Violations violations)
    {
        if (correction is not null)
        {
            violations.RequireText($"{path}.reason", correction.Reason, LongestRemark);
            violations.RequireText($"{path}.person", correction.Person);
        }
    }

    private static void Check(InstrumentState state, string path, TimeProvider clock, Violations violations)
    {
        CheckTime(state.CalibratedAt, $"{path}.calibrated_at", clock, violations);
        CheckTime(state.CheckedAt, $"{path}.checked_at", clock, violations);
        violations.CheckText($"{path}.check_standard", state.CheckStandard);
        violations.CheckText($"{path}.remarks", state.Remarks, LongestRemark);
        if (!System.Enum.IsDefined(state.CheckResult))
        {
            violations.Add($"{path}.check_result", $"was the unknown number {(int)state.CheckResult}; expected one that the contract names.");
        }

        if (state.HasLampHours)
        {
            violations.RequireWithin($"{path}.lamp_hours", state.LampHours, 0, 100_000, "h");
        }

        if (state.HasInternalTemperatureC)
        {
            violations.RequireWithin($"{path}.internal_temperature_c", state.InternalTemperatureC, -50, 150, "°C");
        }
    }

    private static void CheckTime(Timestamp? time, string path, TimeProvider clock, Violations violations)
    {
        if (time is not null)
        {
            MeasurementRules.CheckTime(time, path, clock, violations);
        }
    }
}

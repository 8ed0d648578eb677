using ClearView.Contract.Validation;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Contract.Series;

/// <summary>Rules for times on the wire.</summary>
public static class TimestampRules
{
    // Years 1 to 9999, as the definition of the message has it.
    private const long LeastSeconds = -62_135_596_800;
    private const long MostSeconds = 253_402_300_799;
    private const int NanosPerSecond = 1_000_000_000;
    private const int NanosPerTick = 100;

    /// <summary>The time in units of 100 ns since 0001-01-01 UTC; <see langword="null"/> when it is at fault.</summary>
    /// <param name="time">The time as it came.</param>
    /// <param name="path">Path of the field, for violations.</param>
    /// <param name="violations">Takes what is at fault.</param>
    public static long? ReadTicks(Timestamp time, string path, Violations violations)
    {
        ArgumentNullException.ThrowIfNull(time);
        ArgumentNullException.ThrowIfNull(violations);
        if (!IsValid(time))
        {
            violations.Add(path, $"was {time.Seconds} s and {time.Nanos} ns after 1970; expected a time in the years 1 to 9999, with 0 to 999999999 ns.");
            return null;
        }

        return ((time.Seconds - LeastSeconds) * TimeSpan.TicksPerSecond) + (time.Nanos / NanosPerTick);
    }

    /// <summary>Whether the time is one: in the years 1 to 9999, its nanoseconds below a second.</summary>
    /// <param name="time">The time as it came.</param>
    public static bool IsValid(Timestamp time)
    {
        ArgumentNullException.ThrowIfNull(time);
        return time.Seconds is >= LeastSeconds and <= MostSeconds && time.Nanos is >= 0 and < NanosPerSecond;
    }
}

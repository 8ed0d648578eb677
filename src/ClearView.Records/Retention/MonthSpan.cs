using System.Globalization;

namespace ClearView.Records.Retention;

/// <summary>A month of measurement in UTC, as parts of tables are cut.</summary>
/// <param name="Year">The year, 1 to 9999.</param>
/// <param name="Month">The month, 1 to 12.</param>
public readonly record struct MonthSpan(int Year, int Month) : IComparable<MonthSpan>
{
    /// <summary>First moment of the month, UTC in units of 100 ns since 0001-01-01.</summary>
    public long FirstTick => new DateTime(Year, Month, 1).Ticks;

    // The month after the last one of the calendar has no date.

    /// <summary>First moment of the month after it.</summary>
    public long NextTick => this is { Year: 9999, Month: 12 } ? DateTime.MaxValue.Ticks + 1 : new DateTime(Year, Month, 1).AddMonths(1).Ticks;

    /// <summary>"2024_11", as parts of tables are named.</summary>
    public string PartName => string.Create(CultureInfo.InvariantCulture, $"{Year:0000}_{Month:00}");

    /// <summary>The month that a moment lies in.</summary>
    /// <param name="time">The moment.</param>
    public static MonthSpan Of(DateTimeOffset time) => new(time.UtcDateTime.Year, time.UtcDateTime.Month);

    /// <summary>Reads "2024-11".</summary>
    /// <param name="text">The text.</param>
    /// <param name="month">The month, where it is one.</param>
    /// <returns>Whether it is one.</returns>
    public static bool TryParse(string text, out MonthSpan month)
    {
        var isOne = DateTime.TryParseExact(text, "yyyy-MM", CultureInfo.InvariantCulture, DateTimeStyles.None, out var first);
        month = isOne ? new MonthSpan(first.Year, first.Month) : default;
        return isOne;
    }

    /// <summary>Whether the first month is before the second.</summary>
    public static bool operator <(MonthSpan left, MonthSpan right) => left.CompareTo(right) < 0;

    /// <summary>Whether the first month is behind the second.</summary>
    public static bool operator >(MonthSpan left, MonthSpan right) => left.CompareTo(right) > 0;

    /// <summary>Whether the first month is not behind the second.</summary>
    public static bool operator <=(MonthSpan left, MonthSpan right) => left.CompareTo(right) <= 0;

    /// <summary>Whether the first month is not before the second.</summary>
    public static bool operator >=(MonthSpan left, MonthSpan right) => left.CompareTo(right) >= 0;

    /// <inheritdoc/>
    public int CompareTo(MonthSpan other) => (Year, Month).CompareTo((other.Year, other.Month));

    /// <summary>"2024-11".</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Year:0000}-{Month:00}");
}

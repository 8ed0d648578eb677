using System.Globalization;

using Npgsql;

namespace ClearView.Records.Postgres;

/// <summary>Makes sure that the parts of the tables for months of measurement are there.</summary>
/// <param name="connection">The writer's connection.</param>
internal sealed class MonthPartitions(NpgsqlConnection connection)
{
    private readonly HashSet<(int Year, int Month)> _known = [];

    /// <summary>Makes the parts that times of measurement need.</summary>
    /// <remarks>
    /// Outside of a transaction each part is there at once, so that no lock is held while readings are written; an empty part left
    /// behind does no harm. Within one, the parts come with it.
    /// </remarks>
    public async Task EnsureAsync(IEnumerable<DateTimeOffset> times)
    {
        foreach (var time in times)
        {
            var utc = time.UtcDateTime;
            if (_known.Contains((utc.Year, utc.Month)))
            {
                continue;
            }

            var command = new NpgsqlCommand("SELECT ensure_month(@month, @first, @next)", connection);
            await using var ofCall = command.ConfigureAwait(false);
            command.Parameters.AddWithValue("month", string.Create(CultureInfo.InvariantCulture, $"{utc.Year:0000}_{utc.Month:00}"));
            command.Parameters.AddWithValue("first", new DateTime(utc.Year, utc.Month, 1).Ticks);
            command.Parameters.AddWithValue("next", NextTick(utc));
            await command.ExecuteNonQueryAsync().ConfigureAwait(false);
            _known.Add((utc.Year, utc.Month));
        }
    }

    // The month after the last one of the calendar has no date.
    private static long NextTick(DateTime time) => time is { Year: 9999, Month: 12 }
        ? DateTime.MaxValue.Ticks + 1
        : new DateTime(time.Year, time.Month, 1).AddMonths(1).Ticks;
}

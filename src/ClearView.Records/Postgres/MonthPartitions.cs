using ClearView.Records.Retention;

using Npgsql;

namespace ClearView.Records.Postgres;

/// <summary>Makes sure that the parts of the tables for months of measurement are there.</summary>
/// <param name="connection">The writer's connection.</param>
internal sealed class MonthPartitions(NpgsqlConnection connection)
{
    private readonly HashSet<MonthSpan> _known = [];

    /// <summary>Forgets which parts were there: one may have been retired meanwhile.</summary>
    public void Forget() => _known.Clear();

    /// <summary>Makes the parts that times of measurement need.</summary>
    /// <remarks>
    /// Outside of a transaction each part is there at once, so that no lock is held while readings are written; an empty part left
    /// behind does no harm. Within one, the parts come with it.
    /// </remarks>
    public async Task EnsureAsync(IEnumerable<DateTimeOffset> times)
    {
        foreach (var month in times.Select(MonthSpan.Of))
        {
            if (_known.Contains(month))
            {
                continue;
            }

            var command = new NpgsqlCommand("SELECT ensure_month(@month, @first, @next)", connection);
            await using var ofCall = command.ConfigureAwait(false);
            command.Parameters.AddWithValue("month", month.PartName);
            command.Parameters.AddWithValue("first", month.FirstTick);
            command.Parameters.AddWithValue("next", month.NextTick);
            await command.ExecuteNonQueryAsync().ConfigureAwait(false);
            _known.Add(month);
        }
    }
}

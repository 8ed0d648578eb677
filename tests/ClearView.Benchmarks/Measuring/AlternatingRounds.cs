using System.Diagnostics;

namespace ClearView.Benchmarks.Measuring;

/// <summary>Something measured beside the plainest way to do it, in rounds of both that take turns.</summary>
/// <remarks>
/// Whatever else the machine does strikes both alike, and each goes first in every other round. Only ratios within one run mean
/// anything on another machine.
/// </remarks>
internal static class AlternatingRounds
{
    /// <summary>Runs rounds and prints the rates of both and their ratio, of each round and in the median.</summary>
    /// <param name="rounds">How many.</param>
    /// <param name="perRound">Pieces that each does in a round.</param>
    /// <param name="baseline">Name of the plain way.</param>
    /// <param name="subject">Name of what is measured.</param>
    /// <param name="prepare">Makes both of a round ready, outside the measured time.</param>
    public static async Task RunAsync(
        int rounds, int perRound, string baseline, string subject, Func<(Func<Task> Baseline, Func<Task> Subject)> prepare)
    {
        var table = new AlignedTable(6, "round", baseline + ", 1/s", subject + ", 1/s", "ratio");
        List<double> plainRates = [];
        List<double> rates = [];
        List<double> ratios = [];
        for (var round = 1; round <= rounds; round++)
        {
            var (plain, measured) = prepare();
            TimeSpan plainTime;
            TimeSpan time;
            if (round % 2 == 1)
            {
                plainTime = await TimeAsync(plain);
                time = await TimeAsync(measured);
            }
            else
            {
                time = await TimeAsync(measured);
                plainTime = await TimeAsync(plain);
            }

            plainRates.Add(perRound / plainTime.TotalSeconds);
            rates.Add(perRound / time.TotalSeconds);
            ratios.Add(plainTime / time);
            table.Row(Figures.Text(round), Figures.Text(plainRates[^1]), Figures.Text(rates[^1]), Figures.Text(ratios[^1], 2));
        }

        table.Row("median", Figures.Text(Figures.Median(plainRates)), Figures.Text(Figures.Median(rates)), Figures.Text(Figures.Median(ratios), 2));
    }

    private static async Task<TimeSpan> TimeAsync(Func<Task> action)
    {
        var start = Stopwatch.GetTimestamp();
        await action();
        return Stopwatch.GetElapsedTime(start);
    }
}

using System.Collections.Immutable;

using ClearView.Console.Judging;
using ClearView.Console.Rendering;
using ClearView.Optics.Evaluations;

using Spectre.Console;

using Reading = ClearView.V1.Reading;

namespace ClearView.Console.Demo;

/// <summary>Readings summarised group by group: rolls of a shift, regions of a bottle's wall.</summary>
internal static class GroupSummary
{
    /// <summary>Writes one line per group.</summary>
    /// <param name="screen">Where.</param>
    /// <param name="groupName">What a group is, for the heading.</param>
    /// <param name="readings">The readings.</param>
    /// <param name="groupOf">The group of a reading.</param>
    /// <param name="limits">What each reading is held against.</param>
    public static void Write(
        Screen screen, string groupName, ImmutableArray<Reading> readings, Func<Reading, string> groupOf, ImmutableArray<Limit> limits)
    {
        var table = new Table().Border(TableBorder.Simple).Collapse();
        table.AddColumn(new TableColumn(groupName).NoWrap().PadLeft(0).PadRight(1));
        foreach (var heading in (string[])["Readings", "Haze mean\n%", "Haze least\n%", "Haze most\n%", "τt mean\n%", "YI mean\nE313"])
        {
            table.AddColumn(new TableColumn(heading).RightAligned().NoWrap().PadLeft(1).PadRight(1));
        }
        if (!limits.IsEmpty)
        {
            table.AddColumn(new TableColumn("Failing").RightAligned().NoWrap().PadLeft(1).PadRight(1));
            table.AddColumn(new TableColumn("Result").NoWrap().PadLeft(1).PadRight(0));
        }
        foreach (var group in readings.GroupBy(groupOf))
        {
            double[] haze = Values(group, Measurands.Haze);
            List<string> cells =
            [
                Markup.Escape(group.Key),
                NumberText.Plain(group.Count()),
                NumberText.Fixed(haze.Average(), 2),
                NumberText.Fixed(haze.Min(), 2),
                NumberText.Fixed(haze.Max(), 2),
                NumberText.Fixed(Values(group, Measurands.LuminousTransmittance).Average(), 2),
                NumberText.Fixed(Values(group, Measurands.YellownessIndexE313).Average(), 2),
            ];
            if (!limits.IsEmpty)
            {
                var failing = group.Count(reading => LimitsVerdict.Of(reading.Evaluation, limits)!.Judgement != Judgement.Pass);
                cells.Add(NumberText.Plain(failing));
                cells.Add(VerdictText.Coloured(failing == 0 ? Judgement.Pass : Judgement.Fail));
            }
            table.AddRow([.. cells]);
        }
        screen.Write(table);
    }

    private static double[] Values(IEnumerable<Reading> readings, Measurand measurand) =>
        [.. readings.Select(reading => reading.Evaluation.Values.First(value => value.Measurand == measurand.Id).Value)];
}

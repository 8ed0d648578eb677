using ClearView.Console.Commands.Documents;
using ClearView.Console.Rendering;
using ClearView.Console.Rendering.Decisions;
using ClearView.V1;

namespace ClearView.Console.Commands.ControlCharts;

/// <summary>Control charts that a server keeps, and charts over values of one's own.</summary>
internal sealed class ControlChartsCommand : DocumentedCommand
{
    /// <summary>Creates the command.</summary>
    public ControlChartsCommand(Screen screen)
        : base("control-charts", "List, store, show and draw control charts (ISO 7870).",
        [
            "clearview control-charts list",
            "clearview control-charts show haze-line-3 --from 2026-03-02",
            "clearview control-charts draw values.csv --measurand haze --kind individuals --baseline 1..25",
        ])
    {
        Add(new DocumentListCommand<NamedControlChart>(
            screen, "control charts", "controlCharts", (client, all, cancellation) => client.ListControlChartsAsync(all, cancellation), ControlChartScreen.WriteList));
        Add(new ControlChartsStoreCommand(screen));
        Add(new ControlChartsShowCommand(screen));
        Add(new ControlChartsDrawCommand(screen));
    }
}

using System.Runtime.CompilerServices;

using ClearView.V1;

namespace ClearView.Client;

/// <content>Control charts under names, and what they show.</content>
public sealed partial class ClearViewClient
{
    /// <summary>Stores a control chart under a name, as its next version, with its limits frozen.</summary>
    /// <param name="name">The name, 1 to 60 characters: a to z, digits, "-" and ".", beginning with a letter.</param>
    /// <param name="description">What it is for, in a line, 1 to 200 characters.</param>
    /// <param name="chart">The chart.</param>
    /// <param name="storedBy">Who stores it, 1 to 100 characters.</param>
    /// <param name="cancellationToken">Gives the call up; the chart may be stored nevertheless.</param>
    /// <returns>The chart with its version and frozen limits, and whether the newest version held the same already.</returns>
    /// <exception cref="ClearViewCallException">The server refused, a baseline gives no limits, or the server could not be reached.</exception>
    public Task<StoreControlChartResponse> StoreControlChartAsync(
        string name, string description, ControlChart chart, string storedBy, CancellationToken cancellationToken = default)
    {
        var request = new StoreControlChartRequest { Name = name, Description = description, ControlChart = chart, StoredBy = storedBy };
        return CallAsync(call => _controlCharts.StoreControlChartAsync(request, call), cancellationToken);
    }

    /// <summary>Gives control charts by name, page after page as they are read.</summary>
    /// <param name="allVersions">Whether to give every version; <see langword="false"/> gives the newest of each name.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <exception cref="ClearViewCallException">The server refused or could not be reached.</exception>
    public async IAsyncEnumerable<NamedControlChart> ListControlChartsAsync(
        bool allVersions = false, [EnumeratorCancellation] CancellationToken cancellationToken = default)
    {
        var pages = PagesAsync(
            "",
            (token, call) => _controlCharts.ListControlChartsAsync(new ListControlChartsRequest { AllVersions = allVersions, PageToken = token }, call),
            page => page.NextPageToken,
            cancellationToken);
        await foreach (var page in pages.ConfigureAwait(false))
        {
            foreach (var chart in page.ControlCharts)
            {
                yield return chart;
            }
        }
    }

    /// <summary>Draws a stored chart over the readings that are stored now.</summary>
    /// <param name="request">The chart by its name, and the stretch to show.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <returns>The parts as they come: chart and summary in the first, then points or stretches.</returns>
    /// <exception cref="ClearViewCallException">
    /// The server refused, has no such chart, or could not be reached; also after part of the answer: begin anew then.
    /// </exception>
    public async IAsyncEnumerable<DrawnControlChart> GetControlChartAsync(
        GetControlChartRequest request, [EnumeratorCancellation] CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        await foreach (var response in StreamAsync(call => _controlCharts.GetControlChart(request, call), cancellationToken).ConfigureAwait(false))
        {
            yield return response.Part;
        }
    }

    /// <summary>Draws a chart over values that are brought along; nothing is stored.</summary>
    /// <param name="request">The chart and the values.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <returns>The parts as they come: chart and summary in the first, then points or stretches.</returns>
    /// <exception cref="ClearViewCallException">The server refused, a baseline gives no limits, or the server could not be reached.</exception>
    public async IAsyncEnumerable<DrawnControlChart> DrawControlChartAsync(
        DrawControlChartRequest request, [EnumeratorCancellation] CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        await foreach (var response in StreamAsync(call => _controlCharts.DrawControlChart(request, call), cancellationToken).ConfigureAwait(false))
        {
            yield return response.Part;
        }
    }
}

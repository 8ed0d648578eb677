using System.CommandLine;

using ClearView.Client;
using ClearView.Client.Files;
using ClearView.Plotting.Charts;

using Grpc.Core;

namespace ClearView.Plotting.Commands;

/// <summary>A command that gets readings, draws them, and turns what goes wrong into words and an exit code.</summary>
internal abstract class ChartCommand : Command
{
    private const int Ok = 0;
    private const int LimitFailed = 1;
    private const int BadInput = 2;
    private const int ServerFault = 3;
    private const int Stopped = 130;

    private readonly ReadingSource _source;

    protected ChartCommand(string name, string description, TimeProvider clock, IMethodChoice method, bool needsSpectra)
        : base(name, description)
    {
        _source = new ReadingSource(clock, method, needsSpectra);
        _source.AddTo(this);
        Output = new ChartOutput();
        Output.AddTo(this);
        SetAction(RunAsync);
    }

    protected ChartOutput Output { get; }

    /// <summary>Draws the readings.</summary>
    /// <returns>Whether every limit was kept.</returns>
    protected abstract bool Draw(ParseResult parsed, IReadOnlyList<ChartReading> readings);

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        TextWriter errors = parsed.InvocationConfiguration.Error;
        try
        {
            IReadOnlyList<ChartReading> readings = await _source.LoadAsync(parsed, cancellation).ConfigureAwait(false);
            return Draw(parsed, readings) ? Ok : LimitFailed;
        }
        catch (Exception e) when (e is ChartRefusedException or ClearViewCredentialsException or ScanFileException or IOException or UnauthorizedAccessException)
        {
            await errors.WriteLineAsync($"error: {e.Message}").ConfigureAwait(false);
            return BadInput;
        }
        catch (ClearViewCallException e)
        {
            await errors.WriteLineAsync($"error: {e.Message}").ConfigureAwait(false);
            return e.Status is StatusCode.InvalidArgument or StatusCode.NotFound ? BadInput : ServerFault;
        }
        catch (OperationCanceledException)
        {
            await errors.WriteLineAsync("error: stopped").ConfigureAwait(false);
            return Stopped;
        }
    }
}

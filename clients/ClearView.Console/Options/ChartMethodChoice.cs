using System.CommandLine;

using ClearView.Console.Commands;
using ClearView.Plotting.Charts;
using ClearView.Plotting.Commands;
using ClearView.V1;

namespace ClearView.Console.Options;

/// <summary>The method of files that a chart evaluates, stated with the same options as for every other command.</summary>
internal sealed class ChartMethodChoice : IMethodChoice
{
    private readonly MethodOptions _options = new();

    /// <inheritdoc/>
    public void AddTo(Command command) => _options.AddTo(command);

    /// <inheritdoc/>
    public Method? Resolve(ParseResult parsed)
    {
        if (!_options.AnyIsGiven(parsed))
        {
            return null;
        }
        try
        {
            // Without a server to ask, the method is there at once.
            return _options.ResolveAsync(parsed, find: null).GetAwaiter().GetResult().Method;
        }
        catch (UsageException e)
        {
            throw new ChartRefusedException(e.Message);
        }
    }
}

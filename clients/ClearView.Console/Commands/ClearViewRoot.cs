using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Parsing;

using ClearView.Console.Commands.Audit;
using ClearView.Console.Commands.ControlCharts;
using ClearView.Console.Commands.Judgements;
using ClearView.Console.Commands.Keys;
using ClearView.Console.Commands.Outboxes;
using ClearView.Console.Commands.Records;
using ClearView.Console.Commands.Specifications;
using ClearView.Console.Commands.Studies;
using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Plotting.Commands;

namespace ClearView.Console.Commands;

/// <summary>The whole command line.</summary>
internal static class ClearViewRoot
{
    private const string Description = """
        ClearView: transmission and haze of plastic films and bottles.

        From a scan file to numbers, a verdict and a stored reading. A result names its method and carries its caveats.
        Begin with a file of your own: clearview evaluate FILE --method astm
        """;

    /// <summary>Builds it.</summary>
    public static RootCommand Create(Screen screen, TimeProvider clock)
    {
        var root = new RootCommand(Description)
        {
            new ServeCommand(screen),
            new EvaluateCommand(screen, clock),
            new PostCommand(screen),
            new OutboxCommand(screen),
            new WatchCommand(screen),
            new CorrectCommand(screen),
            new ListCommand(screen),
            new ShowCommand(screen),
            new PictureCommand(screen),
            new MethodsCommand(screen),
            new CatalogueCommand(screen),
            new SpecificationsCommand(screen),
            new ReferencesCommand(screen),
            new JudgeCommand(screen, clock),
            new RejudgeCommand(screen),
            new ControlChartsCommand(screen),
            new CapabilityCommand(screen),
            new RollMapCommand(screen),
            new CompareLotsCommand(screen),
            new SamplingCommand(screen),
            ChartCommands.Create(clock, () => new ChartMethodChoice()),
            new RecordsCommand(screen),
            new AuditCommand(screen, clock),
            new KeysCommand(screen, clock),
            new DemoCommand(screen),
        };
        foreach (var option in root.Options.OfType<HelpOption>())
        {
            if (option.Action is HelpAction usual)
            {
                usual.MaxWidth = screen.Columns;
                option.Action = new TeachingHelp(usual);
            }
        }
        return root;
    }

    // From the program down to the command, for example "clearview methods store".
    private static IEnumerable<string> CommandPath(CommandResult? command) =>
        command is null or { Command: RootCommand } ? ["clearview"] : CommandPath(command.Parent as CommandResult).Append(command.Command.Name);

    /// <summary>Runs a command line.</summary>
    /// <returns>The exit code.</returns>
    public static async Task<int> RunAsync(string[] arguments, Screen screen, TimeProvider clock, CancellationToken cancellation = default)
    {
        var parsed = Create(screen, clock).Parse(arguments);
        if (parsed.Errors.Count > 0 && parsed.Action is not TeachingHelp)
        {
            // That a command is missing goes without saying where what stands in its place is wrong.
            var errors = parsed.Errors.Select(error => error.Message).Distinct(StringComparer.Ordinal).ToList();
            foreach (var error in errors.Skip(errors.Count > 1 && errors[0].StartsWith("Required command", StringComparison.Ordinal) ? 1 : 0))
            {
                screen.Error(error);
            }
            screen.Hint($"for help: {string.Join(' ', CommandPath(parsed.CommandResult))} --help");
            return ExitCode.BadInput;
        }
        var configuration = new InvocationConfiguration { Output = screen.Output, Error = screen.Errors, EnableDefaultExceptionHandler = false };
        if (parsed.CommandResult.Command is ServeCommand)
        {
            // The server listens to signals itself, and takes the time that calls in flight need.
            configuration.ProcessTerminationTimeout = null;
        }
        return await parsed.InvokeAsync(configuration, cancellation);
    }
}

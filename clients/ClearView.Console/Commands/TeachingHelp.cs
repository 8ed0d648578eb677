using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;

namespace ClearView.Console.Commands;

/// <summary>The usual help, with examples and exit codes beneath.</summary>
/// <param name="usual">What writes the usual part.</param>
internal sealed class TeachingHelp(HelpAction usual) : SynchronousCommandLineAction
{
    /// <inheritdoc/>
    public override bool ClearsParseErrors => true;

    /// <inheritdoc/>
    public override int Invoke(ParseResult parseResult)
    {
        usual.Invoke(parseResult);
        var output = parseResult.InvocationConfiguration.Output;
        if (parseResult.CommandResult.Command is DocumentedCommand documented)
        {
            output.WriteLine("Examples:");
            foreach (var example in documented.Examples)
            {
                output.WriteLine($"  {example}");
            }
            output.WriteLine();
        }
        output.WriteLine("Exit codes:");
        output.WriteLine(ExitCode.Help);
        return ExitCode.Ok;
    }
}

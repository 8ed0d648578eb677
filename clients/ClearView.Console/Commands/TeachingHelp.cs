using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;

namespace ClearView.Console.Commands;

/// <summary>The usual help, its options under headings, with examples and exit codes beneath.</summary>
/// <param name="usual">What writes the usual part.</param>
internal sealed class TeachingHelp(HelpAction usual) : SynchronousCommandLineAction
{
    private const string UsualHeading = "Options:";

    /// <inheritdoc/>
    public override bool ClearsParseErrors => true;

    /// <inheritdoc/>
    public override int Invoke(ParseResult parseResult)
    {
        var output = parseResult.InvocationConfiguration.Output;
        using var page = new StringWriter();
        parseResult.InvocationConfiguration.Output = page;
        usual.Invoke(parseResult);
        parseResult.InvocationConfiguration.Output = output;
        var documented = parseResult.CommandResult.Command as DocumentedCommand;
        foreach (var line in WithHeadings(page.ToString().ReplaceLineEndings("\n").Split('\n')[..^1], documented))
        {
            // Charts are a program of their own too, and their pages leave the name of the program to whoever runs it.
            output.WriteLine(line.StartsWith("    chart ", StringComparison.Ordinal) ? $"    clearview {line.TrimStart()}" : line);
        }
        if (documented is not null)
        {
            output.WriteLine("Examples:");
            foreach (var example in documented.Examples)
            {
                // A long line goes on in the next one, as in a shell.
                output.WriteLine($"  {example.Replace("\\\n", "\\\n      ", StringComparison.Ordinal)}");
            }
            output.WriteLine();
        }
        output.WriteLine("Exit codes:");
        output.WriteLine(ExitCode.Help);
        return ExitCode.Ok;
    }

    // The usual help lists options in one run; the groups of a long list get headings of their own.
    private static IEnumerable<string> WithHeadings(string[] lines, DocumentedCommand? command)
    {
        for (var i = 0; i < lines.Length; i++)
        {
            if (lines[i] == UsualHeading && i + 1 < lines.Length && HeadingOf(lines[i + 1], command) is not null)
            {
                continue;
            }
            if (HeadingOf(lines[i], command) is { } heading)
            {
                if (lines[i - 1] != UsualHeading)
                {
                    yield return "";
                }
                yield return $"{heading}:";
            }
            yield return lines[i];
        }
    }

    private static string? HeadingOf(string line, DocumentedCommand? command)
    {
        if (command is null || !line.StartsWith("  -", StringComparison.Ordinal))
        {
            return null;
        }
        var names = line.Split([' ', ','], StringSplitOptions.RemoveEmptyEntries).TakeWhile(word => word.StartsWith('-'));
        return names.Select(name => command.Groups.GetValueOrDefault(name)).FirstOrDefault(heading => heading is not null);
    }
}

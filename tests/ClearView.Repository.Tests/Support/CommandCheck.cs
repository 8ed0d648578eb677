using System.Collections.Concurrent;
using System.Text.RegularExpressions;

namespace ClearView.Repository.Tests.Support;

/// <summary>Looks whether a command line of a page would find what it names: projects, scripts, commands, options.</summary>
/// <remarks>Nothing of it is run but the clients' own help.</remarks>
internal static class CommandCheck
{
    // Programs of every machine, or that the page explains to install. What they are asked to do is not checked.
    private static readonly string[] Foreign =
        ["cat", "cd", "chmod", "column", "cp", "createdb", "createuser", "curl", "echo", "export", "git", "grep", "grpcurl", "head", "jq", "kill", "ls",
         "mkdir", "mv", "openssl", "pg_basebackup", "pg_dump", "pg_restore", "sed", "sleep", "sqlite3", "tail"];

    private static readonly string[] DotnetVerbs = ["build", "test", "format", "restore", "publish", "clean", "run"];

    private static readonly ConcurrentDictionary<string, ProcessResult> Help = new(StringComparer.Ordinal);

    /// <summary>What is wrong with a command, or <see langword="null"/>.</summary>
    public static string? Fault(string line) => FunctionDefinition(line) is { Success: true } definition
        ? FaultOfDefinition(definition.Groups["program"].Value)
        : FaultOfLine(line);

    private static string? FaultOfLine(string line) =>
        Regex.Split(WithoutComment(line), @"\s*(?:&&|\|\||[|;])\s*")
            .Select(part => part.TrimEnd('&', ' '))
            .Where(part => part.Length > 0)
            .Select(FaultOfOne)
            .FirstOrDefault(fault => fault is not null);

    // A shell function that stands for a built program: clearview() { clients/ClearView.Console/bin/…/clearview "$@"; }
    private static Match FunctionDefinition(string line) => Regex.Match(line, @"^\w+\(\) \{ (?<program>\S+) ""\$@""; \}$");

    private static string? FaultOfDefinition(string program)
    {
        string folder = program.Split("/bin/")[0];
        string project = $"{folder}/{Path.GetFileName(folder)}.csproj";
        string? name = Tree.Holds(project) ? ProjectFile.Property(project, "AssemblyName") ?? Path.GetFileName(folder) : null;
        return name == Path.GetFileName(program) ? null : $"no project builds {program}";
    }

    private static string? FaultOfOne(string command)
    {
        string[] words = [.. Words(command).SkipWhile(word => Regex.IsMatch(word, @"^[A-Z_]+=")).TakeWhile(word => !IsRedirection(word))];
        return words switch
        {
            [] => null,
            ["dotnet", "run", .. string[] rest] => FaultOfRun(rest),
            ["dotnet", var verb, .. string[] rest] => FaultOfDotnet(verb, rest),
            ["bash" or "sh", var script, ..] => Tree.Holds(script) ? null : $"no script {script}",
            ["clearview", .. string[] rest] => FaultOfClient("clearview", rest),
            [var program, ..] => Foreign.Contains(program, StringComparer.Ordinal) ? null : $"unknown program {program}",
        };
    }

    private static string? FaultOfRun(string[] words)
    {
        int at = Array.FindIndex(words, word => word is "--project" or "-p");
        if (at < 0 || at + 1 >= words.Length)
        {
            return "no --project";
        }

        string folder = words[at + 1].TrimEnd('/');
        string project = folder.EndsWith(".csproj", StringComparison.Ordinal) ? folder : $"{folder}/{Path.GetFileName(folder)}.csproj";
        if (!Tree.Holds(project))
        {
            return $"no project {folder}";
        }

        string assembly = ProjectFile.Property(project, "AssemblyName") ?? Path.GetFileNameWithoutExtension(project);
        string[] rest = [.. words.SkipWhile(word => word != "--").Skip(1)];
        return project.StartsWith("clients/", StringComparison.Ordinal) ? FaultOfClient(assembly, rest) : null;
    }

    private static string? FaultOfDotnet(string verb, string[] words)
    {
        if (!DotnetVerbs.Contains(verb, StringComparer.Ordinal))
        {
            return $"unknown verb {verb}";
        }

        return words
            .Where(word => !word.StartsWith('-') && (word.Contains('/', StringComparison.Ordinal) || word.EndsWith(".sln", StringComparison.Ordinal)))
            .Where(word => !Tree.Holds(word))
            .Select(word => $"no {word}")
            .FirstOrDefault();
    }

    // Follows the commands as far as the help knows them, then looks for each option in the help of the last one.
    private static string? FaultOfClient(string assembly, string[] words)
    {
        List<string> path = [];
        ProcessResult help = HelpOf(assembly, path);
        while (path.Count < words.Length && !words[path.Count].StartsWith('-') && CommandsOf(help).Contains(words[path.Count], StringComparer.Ordinal))
        {
            path.Add(words[path.Count]);
            help = HelpOf(assembly, path);
        }

        if (help.ExitCode != 0)
        {
            return $"{assembly} {string.Join(' ', path)} --help ends with {help.ExitCode}";
        }

        if (path.Count == 0 && words.Length > 0 && !words[0].StartsWith('-') && CommandsOf(help).Any())
        {
            return $"no command {words[0]}";
        }

        return words
            .Where(word => Regex.IsMatch(word, "^--?[a-z]"))
            .Select(word => word.Split('=')[0])
            .Where(option => !Regex.IsMatch(help.Output, $@"(?<![\w-]){Regex.Escape(option)}(?![\w-])"))
            .Select(option => $"no option {option}")
            .FirstOrDefault();
    }

    private static ProcessResult HelpOf(string assembly, List<string> path) =>
        Help.GetOrAdd(
            $"{assembly} {string.Join(' ', path)}",
            _ => ProcessResult.Run(AppContext.BaseDirectory, "dotnet", [Path.Combine(AppContext.BaseDirectory, assembly + ".dll"), .. path, "--help"]));

    // The first word of each line below the heading "Commands:".
    private static IEnumerable<string> CommandsOf(ProcessResult help) =>
        help.Output.Split('\n')
            .SkipWhile(line => !line.StartsWith("Commands:", StringComparison.OrdinalIgnoreCase))
            .Skip(1)
            .TakeWhile(line => line.StartsWith(' '))
            .Select(line => line.Trim().Split(' ', ',')[0]);

    private static IEnumerable<string> Words(string command) =>
        Regex.Matches(command, """'[^']*'|"[^"]*"|\S+""").Select(word => word.Value.Trim('\'', '"'));

    private static string WithoutComment(string line) => Regex.Replace(line, @"\s#.*$", string.Empty);

    private static bool IsRedirection(string word) => Regex.IsMatch(word, @"^\d?[<>]");
}

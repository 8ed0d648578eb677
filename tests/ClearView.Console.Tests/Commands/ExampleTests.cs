using System.CommandLine.Parsing;

using ClearView.Console.Commands;
using ClearView.Console.Rendering;

namespace ClearView.Console.Tests.Commands;

/// <summary>What the help shows must work.</summary>
public class ExampleTests
{
    public static TheoryData<string> Examples =>
        [.. Root().Subcommands.OfType<DocumentedCommand>().SelectMany(command => command.Examples)];

    [Theory]
    [MemberData(nameof(Examples))]
    public void Example_Parses(string example)
    {
        var words = CommandLineParser.SplitCommandLine(example).ToArray();

        var parsed = Root().Parse(words[1..]);

        Assert.Equal("clearview", words[0]);
        Assert.Empty(parsed.Errors);
        Assert.True(example.Length <= Screen.Width - 2, "The example is wider than the screen.");
    }

    [Fact]
    public void EveryCommand_HasExamplesOfItsOwn() => Assert.All(
        Root().Subcommands.OfType<DocumentedCommand>(),
        command =>
        {
            Assert.InRange(command.Examples.Length, 2, 3);
            Assert.All(command.Examples, example => Assert.StartsWith($"clearview {command.Name}", example, StringComparison.Ordinal));
        });

    [Theory]
    [InlineData("")]
    [InlineData("evaluate")]
    [InlineData("post")]
    [InlineData("list")]
    [InlineData("show")]
    [InlineData("serve")]
    [InlineData("demo")]
    public async Task Help_ShowsExamplesAndExitCodes(string command)
    {
        var run = await ConsoleRun.RunAsync($"{command} --help");

        Assert.Equal(0, run.ExitCode);
        Assert.Empty(run.Errors);
        Assert.Contains("Exit codes:", run.Output, StringComparison.Ordinal);
        if (command.Length > 0)
        {
            Assert.Contains($"Examples:\n  clearview {command}", run.Output, StringComparison.Ordinal);
        }
    }

    private static System.CommandLine.RootCommand Root() => ClearViewRoot.Create(new Screen(TextWriter.Null, TextWriter.Null), TimeProvider.System);
}

using System.CommandLine.Parsing;

using ClearView.Console.Commands;
using ClearView.Console.Rendering;

namespace ClearView.Console.Tests.Commands;

/// <summary>What the help shows must work.</summary>
public class ExampleTests
{
    public static TheoryData<string> Examples =>
        [.. Documented().SelectMany(one => one.Command.Examples)];

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
    public async Task Help_OfCharts_NamesTheProgram()
    {
        var run = await ConsoleRun.RunAsync("chart spectral --help");

        Assert.Contains("    clearview chart spectral", run.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("\n    chart ", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void EveryCommand_HasExamplesOfItsOwn() => Assert.All(
        Documented(),
        one =>
        {
            Assert.InRange(one.Command.Examples.Length, 2, 3);
            Assert.All(one.Command.Examples, example => Assert.StartsWith($"clearview {one.Path}", example, StringComparison.Ordinal));
        });

    [Theory]
    [InlineData("")]
    [InlineData("evaluate")]
    [InlineData("post")]
    [InlineData("list")]
    [InlineData("show")]
    [InlineData("serve")]
    [InlineData("demo")]
    [InlineData("methods")]
    [InlineData("methods list")]
    [InlineData("methods show")]
    [InlineData("methods store")]
    [InlineData("catalogue")]
    [InlineData("specifications")]
    [InlineData("specifications list")]
    [InlineData("specifications show")]
    [InlineData("references")]
    [InlineData("references list")]
    [InlineData("references show")]
    [InlineData("references store")]
    [InlineData("control-charts")]
    [InlineData("control-charts list")]
    [InlineData("control-charts show")]
    [InlineData("sampling")]
    [InlineData("sampling mean")]
    [InlineData("sampling difference")]
    [InlineData("sampling equivalence")]
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

    private static IEnumerable<(DocumentedCommand Command, string Path)> Documented() => Root().Subcommands.SelectMany(command =>
        command.Subcommands.OfType<DocumentedCommand>().Select(one => (one, $"{command.Name} {one.Name}"))
            .Concat(command is DocumentedCommand documented ? [(documented, command.Name)] : []));

    private static System.CommandLine.RootCommand Root() => ClearViewRoot.Create(new Screen(TextWriter.Null, TextWriter.Null), TimeProvider.System);
}

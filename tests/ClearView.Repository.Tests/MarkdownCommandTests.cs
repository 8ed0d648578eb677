using ClearView.Repository.Tests.Support;

namespace ClearView.Repository.Tests;

/// <summary>Every command that a page shows exists, with its options.</summary>
public sealed class MarkdownCommandTests
{
    [Fact]
    public void Commands_Exist() =>
        Findings.AssertNone(
            "Commands that do not exist:",
            from page in Tree.FilesEndingIn(".md")
            from command in Markdown.Commands(page)
            let fault = CommandCheck.Fault(command)
            where fault is not null
            select $"{page}: {command}: {fault}");

    [Fact]
    public void Readme_ShowsTheTwoCommands()
    {
        string[] commands = [.. Markdown.Commands("README.md")];

        Assert.Contains("dotnet run --project clients/ClearView.Console -- demo", commands);
        Assert.Contains("bash tests/run", commands);
    }

    [Theory]
    [InlineData("dotnet run --project clients/NoSuch -- demo")]
    [InlineData("dotnet build src/NoSuch")]
    [InlineData("bash tests/no-such-script")]
    [InlineData("clearview no-such-command")]
    [InlineData("clearview demo --no-such-option")]
    [InlineData("dotnet run --project clients/ClearView.Console -- demo --no-such-option")]
    [InlineData("no-such-program --help")]
    [InlineData("clearview() { clients/NoSuch/bin/Debug/net10.0/clearview \"$@\"; }")]
    [InlineData("clearview() { clients/ClearView.Console/bin/Debug/net10.0/other \"$@\"; }")]
    public void Rule_FindsACommandThatDoesNotExist(string command) => Assert.NotNull(CommandCheck.Fault(command));

    [Theory]
    [InlineData("clearview demo")]
    [InlineData("clearview demo --help")]
    [InlineData("dotnet run -c Release --project clients/ClearView.Console -- demo")]
    [InlineData("dotnet build ClearView.sln -c Release")]
    [InlineData("clearview() { clients/ClearView.Console/bin/Debug/net10.0/clearview \"$@\"; }")]
    [InlineData("cd clients && bash tests/run | tail -n 1")]
    public void Rule_AcceptsACommandThatExists(string command) => Assert.Null(CommandCheck.Fault(command));
}

namespace ClearView.Client.Tests;

public sealed class ServerAddressesTests
{
    [Theory]
    [InlineData("127.0.0.1:5180", "http://127.0.0.1:5180/")]
    [InlineData("http://line-3:5180", "http://line-3:5180/")]
    [InlineData("[::1]:5180", "http://[::1]:5180/")]
    [InlineData("a:1, b:2,c:3", "http://a:1/", "http://b:2/", "http://c:3/")]
    [InlineData("https://a:1,https://b:1", "https://a:1/", "https://b:1/")]
    public void Parse_WrittenAddresses_GivesEachAsUri(string text, params string[] expected) =>
        Assert.Equal(expected, ServerAddresses.Parse(text).All.Select(address => address.AbsoluteUri));

    [Theory]
    [InlineData("", "\"\" is not a server's address")]
    [InlineData("a:1,,b:2", "\"\" is not a server's address")]
    [InlineData("ftp://a:1", "\"ftp://a:1\" is not a server's address")]
    [InlineData("a:1,https://b:2", "mixes http and https")]
    [InlineData("a:1,b:2,a:1", "\"a:1\" is named twice")]
    public void Parse_NoAddresses_SaysWhich(string text, string expected) =>
        Assert.Contains(expected, Assert.Throws<FormatException>(() => ServerAddresses.Parse(text)).Message, StringComparison.Ordinal);

    [Fact]
    public void Parse_MoreThan64_IsRefused() => Assert.Contains(
        "at most 64",
        Assert.Throws<FormatException>(() => ServerAddresses.Parse(string.Join(',', Enumerable.Range(1, 65).Select(port => $"a:{port}")))).Message,
        StringComparison.Ordinal);

    [Fact]
    public void ToString_SeveralServers_NamesAll() => Assert.Equal("a:1, b:2", ServerAddresses.Parse("http://a:1,b:2").ToString());
}

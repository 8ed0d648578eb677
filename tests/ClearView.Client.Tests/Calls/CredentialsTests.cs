namespace ClearView.Client.Tests.Calls;

public sealed class CredentialsTests
{
    private const string Secret = "cvk_AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA";

    [Theory]
    [InlineData("http://192.0.2.7:5180")]
    [InlineData("http://clearview.plant:5180")]
    public async Task Key_InTheClearToAnotherMachine_IsNotSent(string address)
    {
        var error = Assert.Throws<ClearViewCredentialsException>(() => ClearViewClient.Connect(new Uri(address), With(Secret)));

        Assert.Contains("https://", error.Message, StringComparison.Ordinal);
        Assert.DoesNotContain(Secret, error.ToString(), StringComparison.Ordinal);
        await ClearViewClient.Connect(new Uri(address)).DisposeAsync();
        await ClearViewClient.Connect(new Uri(address.Replace("http:", "https:", StringComparison.Ordinal)), With(Secret)).DisposeAsync();
    }

    [Theory]
    [InlineData("http://127.0.0.1:5180")]
    [InlineData("http://[::1]:5180")]
    [InlineData("http://localhost:5180")]
    public async Task Key_ToThisMachine_NeedsNoTls(string address) =>
        await ClearViewClient.Connect(new Uri(address), With(Secret)).DisposeAsync();

    [Theory]
    [InlineData("cvk_A\r\nx-other: 1")]
    [InlineData("cvk_A B")]
    [InlineData("cvk_Ä")]
    public void Key_ThatWouldBreakItsHeader_IsRefused(string key) =>
        Assert.Throws<ClearViewCredentialsException>(() => ClearViewClient.Connect(new Uri("http://127.0.0.1:5180"), With(key)));

    [Fact]
    public void Text_OfCredentialsAndOptions_ShowsNoKey()
    {
        Assert.Contains("a key", With(Secret).ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain(Secret, With(Secret).ToString(), StringComparison.Ordinal);
    }

    private static ClearViewClientOptions With(string key) => new() { Credentials = new ClearViewCredentials { Key = key } };
}

using ClearView.Records.Model;
using ClearView.Records.Sqlite;
using ClearView.Server.Configuration;
using ClearView.Server.Security;
using ClearView.Server.Tests.Hosting;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

using Grpc.Core;
using Grpc.Health.V1;

using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace ClearView.Server.Tests.Security;

public sealed class KeyTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    // FIPS 180-4 example of SHA-256, "abc"; RFC 4648, section 10, has no base64url of its own beyond the alphabet of section 5.
    [Fact]
    public void Secret_HasItsForm_AndIsKeptAsSha256()
    {
        var secret = KeySecret.Create();

        Assert.Matches("^cvk_[A-Za-z0-9_-]{43}$", secret);
        Assert.NotEqual(secret, KeySecret.Create());
        Assert.True(KeySecret.TryHash(secret, out var hash));
        Assert.Equal(KeySecret.Hash(secret), hash);
        Assert.Equal(
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
            Convert.ToHexStringLower(KeySecret.Hash("abc")));
        foreach (var text in (string[])["", "cvk_", secret[..^1], secret + "A", "CVK_" + secret[4..], secret[..^1] + "+", secret[..^1] + "é"])
        {
            Assert.False(KeySecret.TryHash(text, out _), text);
        }
    }

    [Fact]
    public async Task Call_WithoutAKnownKey_IsUnauthenticatedAndSaysWhatIsMissing()
    {
        await using var server = await GuardedServer.StartAsync();
        var unknown = KeySecret.Create();

        foreach (var (headers, said) in new[]
        {
            (new Metadata(), "No key"),
            (GuardedServer.With(unknown), "not known"),
            (GuardedServer.With("cvk_short"), "not \"Bearer\" and a key"),
            (new Metadata { { "authorization", "Basic " + Convert.ToBase64String("name:password"u8) } }, "not \"Bearer\" and a key"),
            (new Metadata { { "authorization", "Bearer " + server.Administrator }, { "authorization", "Bearer " + unknown } }, "not \"Bearer\" and a key"),
        })
        {
            var error = await Rpc.FailsAsync(
                StatusCode.Unauthenticated, server.Server.Catalogue.GetCatalogueAsync(new GetCatalogueRequest(), headers, cancellationToken: Token));
            Assert.Contains(said, error.Status.Detail, StringComparison.Ordinal);
            Assert.DoesNotContain(unknown, error.Status.Detail, StringComparison.Ordinal);
        }

        // RFC 9110, section 11.1: the case of the scheme does not count.
        await server.Server.Catalogue.GetCatalogueAsync(
            new GetCatalogueRequest(), new Metadata { { "authorization", "bearer " + server.Administrator } }, cancellationToken: Token);
    }

    [Fact]
    public async Task Health_IsOpenToEverybody()
    {
        await using var server = await GuardedServer.StartAsync();

        var health = await new Health.HealthClient(server.Server.Channel).CheckAsync(new HealthCheckRequest(), cancellationToken: Token);

        Assert.Equal(HealthCheckResponse.Types.ServingStatus.Serving, health.Status);
    }

    [Fact]
    public async Task Key_OpensUntilItExpires()
    {
        await using var server = await GuardedServer.StartAsync();
        var key = await server.CreateAsync("trial", Role.Lab, life: TimeSpan.FromHours(1));

        server.Clock.Advance(TimeSpan.FromHours(1) - TimeSpan.FromTicks(1));
        await server.Call(key.Secret);
        server.Clock.Advance(TimeSpan.FromTicks(1));

        var error = await Rpc.FailsAsync(StatusCode.Unauthenticated, server.Call(key.Secret));
        Assert.Contains("has expired", error.Status.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task RevokedKey_OpensNothingMore_AndItsOpenStreamEnds()
    {
        await using var server = await GuardedServer.StartAsync();
        var key = await server.CreateAsync("line-3", Role.Line, ["line 3"]);
        using var stream = server.Server.Evaluations.EvaluateMany(GuardedServer.With(key.Secret), cancellationToken: Token);
        await stream.RequestStream.WriteAsync(new EvaluateManyRequest(), Token);
        Assert.True(await stream.ResponseStream.MoveNext(Token));

        var revoked = await server.Revoke("line-3");
        var again = await server.Revoke("line-3");

        Assert.Equal(KeyState.Revoked, revoked.Key.State);
        Assert.Equal("administrator", revoked.Key.RevokedBy);
        Assert.Equal(revoked.Key.RevokedAt, again.Key.RevokedAt);
        Assert.Contains("is revoked", (await Rpc.FailsAsync(StatusCode.Unauthenticated, server.Call(key.Secret))).Status.Detail, StringComparison.Ordinal);
        await stream.RequestStream.WriteAsync(new EvaluateManyRequest(), Token);
        var error = await Assert.ThrowsAsync<RpcException>(() => stream.ResponseStream.MoveNext(Token));
        Assert.Equal(StatusCode.Unauthenticated, error.StatusCode);
    }

    [Fact]
    public async Task KeyThatAnotherServerRevokes_IsRefusedWithinTwoSeconds()
    {
        await using var server = await GuardedServer.StartAsync();
        var key = await server.CreateAsync("line-3", Role.Line, ["line 3"]);
        await server.Call(key.Secret);
        await using var store = SqliteStore.Open(server.Server.Store, server.Clock);
        var book = new KeyBook(store.Documents(VersionedKind.Key));
        var ring = await book.ReadAsync(Token);
        await book.RevokeAsync(ring.FindByName("line-3")!, "another server", server.Clock.GetUtcNow());

        server.Clock.Advance(KeyCache.FreshFor);

        await Rpc.FailsAsync(StatusCode.Unauthenticated, server.Call(key.Secret));
        Assert.Equal(TimeSpan.FromSeconds(2), KeyCache.FreshFor);
    }

    [Fact]
    public async Task Name_IsNeverUsedAgain_NotEvenAfterRevoking()
    {
        await using var server = await GuardedServer.StartAsync();
        await server.CreateAsync("line-3", Role.Line, ["line 3"]);
        await server.Revoke("line-3");

        var error = await Assert.ThrowsAsync<RpcException>(() => server.CreateAsync("line-3", Role.Lab));

        Assert.Equal(StatusCode.AlreadyExists, error.StatusCode);
    }

    [Fact]
    public async Task SecondDocumentOfAName_ChangesNothingButARevocation()
    {
        await using var server = await GuardedServer.StartAsync();
        var key = await server.CreateAsync("line-3", Role.Line, ["line 3"]);
        await using var store = SqliteStore.Open(server.Server.Store, server.Clock);
        var documents = store.Documents(VersionedKind.Key);
        var first = (await new KeyBook(documents).ReadAsync(Token)).FindByName("line-3")!;
        var secret = KeySecret.Create();
        var raced = first with { Role = Role.Administrator, SecretHash = [.. KeySecret.Hash(secret)], RevokedAt = server.Clock.GetUtcNow() };

        // What a second server writes that took the name at the same time.
        await new KeyBook(documents).RevokeAsync(raced, "race", server.Clock.GetUtcNow());
        server.Clock.Advance(KeyCache.FreshFor);

        await server.Call(key.Secret);
        await Rpc.FailsAsync(StatusCode.Unauthenticated, server.Call(secret));
    }

    [Fact]
    public async Task List_ShowsEveryKeyWithItsState_AndNoSecret()
    {
        await using var server = await GuardedServer.StartAsync();
        var lab = await server.CreateAsync("lab", Role.Lab, life: TimeSpan.FromMinutes(1));
        var line = await server.CreateAsync("line-3", Role.Line, ["line 3", "line 4"]);
        await server.Revoke("line-3");
        server.Clock.Advance(TimeSpan.FromMinutes(2));

        var list = await server.Keys.ListKeysAsync(new ListKeysRequest(), GuardedServer.With(server.Administrator), cancellationToken: Token);

        Assert.Equal(
            [("administrator", KeyState.Active), ("lab", KeyState.Expired), ("line-3", KeyState.Revoked)],
            list.Keys.Select(key => (key.Name, key.State)));
        Assert.Equal(["line 3", "line 4"], list.Keys[2].Stations);
        Assert.Equal(Convert.ToHexStringLower(KeySecret.Hash(lab.Secret))[^4..], list.Keys[1].Fingerprint);
        Assert.All((string[])[server.Administrator, lab.Secret, line.Secret], secret => Assert.DoesNotContain(secret, list.ToString(), StringComparison.Ordinal));
    }

    [Fact]
    public async Task Create_FieldsAtFault_AreAllNamed()
    {
        await using var server = await GuardedServer.StartAsync();
        async Task<IEnumerable<string>> FaultsAsync(CreateKeyRequest request) => (await Rpc.FaultsAsync(
            StatusCode.InvalidArgument,
            server.Keys.CreateKeyAsync(request, GuardedServer.With(server.Administrator), cancellationToken: Token))).Keys.Order(StringComparer.Ordinal);

        Assert.Equal(
            ["description", "expires_at", "name", "role"],
            await FaultsAsync(new CreateKeyRequest { ExpiresAt = server.Clock.GetUtcNow().ToTimestamp() }));
        Assert.Equal(["stations"], await FaultsAsync(new CreateKeyRequest { Name = "a", Description = "d", Role = Role.Line }));
        Assert.Equal(["stations"], await FaultsAsync(new CreateKeyRequest { Name = "a", Description = "d", Role = Role.Lab, Stations = { "line 3" } }));
        Assert.Equal(["stations[1]"], await FaultsAsync(new CreateKeyRequest { Name = "a", Description = "d", Role = Role.Line, Stations = { "line 3", " " } }));
        Assert.Equal(
            ["expires_at"],
            await FaultsAsync(new CreateKeyRequest { Name = "a", Description = "d", Role = Role.Lab, ExpiresAt = server.Clock.GetUtcNow().AddYears(11).ToTimestamp() }));
    }

    [Fact]
    public async Task FirstKey_IsMadeOnce_UntilNoAdministratorHasOne()
    {
        await using var server = await GuardedServer.StartAsync();
        await using var store = SqliteStore.Open(server.Server.Store, server.Clock);

        Assert.Null(await FirstKey.TryCreateAsync(store, server.Clock, cancellationToken: Token));
        await server.Revoke("administrator");
        var next = await FirstKey.TryCreateAsync(store, server.Clock, cancellationToken: Token);

        Assert.Equal("administrator-2", next!.Key.Name);
        server.Clock.Advance(KeyCache.FreshFor);
        await server.Call(next.Secret);
    }

    [Fact]
    public async Task Secrets_AreNeverLogged()
    {
        using var logs = new RecordingLogs();
        await using var server = await GuardedServer.StartAsync(logs);
        var key = await server.CreateAsync("line-3", Role.Line, ["line 3"]);
        var unknown = KeySecret.Create();

        await server.Call(key.Secret);
        await Rpc.FailsAsync(StatusCode.Unauthenticated, server.Call(unknown));
        await Rpc.FailsAsync(StatusCode.PermissionDenied, server.Keys.ListKeysAsync(new ListKeysRequest(), GuardedServer.With(key.Secret), cancellationToken: Token));
        await server.Revoke("line-3");
        await Rpc.FailsAsync(StatusCode.Unauthenticated, server.Call(key.Secret));
        await server.Server.StopAsync();

        Assert.Contains(logs.Lines, line => line.Level == LogLevel.Debug && line.Category.StartsWith("Microsoft.AspNetCore", StringComparison.Ordinal));
        Assert.Contains(logs.Lines, line => line.Message.Contains("Key line-3 revoked by administrator", StringComparison.Ordinal));
        foreach (var secret in (string[])[server.Administrator, key.Secret, unknown])
        {
            Assert.All(logs.Lines, line => Assert.DoesNotContain(secret[4..], line.Message + line.Error, StringComparison.Ordinal));
        }
    }

    [Fact]
    public async Task LookForTheCaller_ThatFailsUnexpectedly_ShowsNothingOfTheInside()
    {
        using var logs = new RecordingLogs();
        await using var server = await TestServer.StartAsync(
            services => services
                .AddSingleton<ILoggerProvider>(logs)
                .AddKeyedSingleton<IVersionedStore>(VersionedKind.Key, new BrokenVersionedStore()),
            LogLevel.Information,
            options => options with { Access = AccessMode.Keys });

        var error = await Rpc.FailsAsync(
            StatusCode.Internal,
            server.Catalogue.GetCatalogueAsync(new GetCatalogueRequest(), GuardedServer.With(KeySecret.Create()), cancellationToken: Token));

        Assert.DoesNotContain(BrokenVersionedStore.Inside, error.Status.Detail, StringComparison.Ordinal);
        Assert.Contains(logs.Lines, line => line.Error?.Message == BrokenVersionedStore.Inside);
    }

    [Fact]
    public async Task StoreAway_KeysOpenForThirtySeconds_ThenCallsAreUnavailable()
    {
        var clock = new SettableClock();
        var store = new SwitchedVersionedStore();
        using var cache = new KeyCache(new KeyBook(store), clock);
        var ring = await cache.GetAsync(Token);
        store.IsAway = true;

        clock.Advance(KeyCache.UsableFor - TimeSpan.FromTicks(1));
        Assert.Same(ring, await cache.GetAsync(Token));
        clock.Advance(TimeSpan.FromTicks(1));
        await Assert.ThrowsAsync<StoreUnavailableException>(() => cache.GetAsync(Token).AsTask());
        store.IsAway = false;
        Assert.NotSame(ring, await cache.GetAsync(Token));
    }

    [Fact]
    public async Task Change_WhileTheKeysAreRead_HasThemReadAgain()
    {
        var store = new SwitchedVersionedStore { Gate = new TaskCompletionSource() };
        using var cache = new KeyCache(new KeyBook(store), new SettableClock());
        var reading = cache.GetAsync(Token).AsTask();
        cache.Forget();
        store.Gate.SetResult();
        var before = await reading;

        var after = await cache.GetAsync(Token);

        Assert.NotSame(before, after);
        Assert.Same(after, await cache.GetAsync(Token));
    }
}

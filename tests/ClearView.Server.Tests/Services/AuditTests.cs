using ClearView.Contract.Tests;
using ClearView.V1;

using Grpc.Core;

using Microsoft.Data.Sqlite;

namespace ClearView.Server.Tests.Services;

public sealed class AuditTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Verify_PostedReadings_HoldsAndTellsProgress()
    {
        await using var server = await TestServer.StartAsync();
        await PostAsync(server, 3);

        var parts = await VerifyAsync(server);

        var summary = parts[^1].Summary;
        Assert.Null(summary.FirstBreak);
        Assert.Equal((3L, 3L, 3L), (summary.ReadingCount, summary.LinkCount, Assert.Single(summary.Heads).Position));
        Assert.All(parts.SkipLast(1), part => Assert.InRange(part.Progress.LinkCount, 1, part.Progress.TotalLinkCount));
    }

    [Fact]
    public async Task Verify_ChangedReading_NamesLinkAndReading()
    {
        await using var server = await TestServer.StartAsync();
        var ids = await PostAsync(server, 3);
        using (var connection = new SqliteConnection($"Data Source={server.Store};Pooling=False"))
        {
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = "DROP TRIGGER reading_is_never_changed; UPDATE reading SET lot = 'other' WHERE sequence = 2";
            command.ExecuteNonQuery();
        }

        var found = (await VerifyAsync(server))[^1].Summary.FirstBreak;

        Assert.Equal(new ChainBreak { Fault = ChainFault.RecordChanged, Chain = 1, Position = 2, Record = "reading 2", ReadingId = ids[1] }, found);
    }

    [Fact]
    public async Task Verify_NotedHeads_AreLookedFor()
    {
        await using var server = await TestServer.StartAsync();
        await PostAsync(server, 2);
        var noted = (await server.Audit.ListHeadsAsync(new ListHeadsRequest(), cancellationToken: Token)).Heads;
        await PostAsync(server, 1);

        var held = (await VerifyAsync(server, [.. noted]))[^1].Summary;
        var lost = (await VerifyAsync(server, new ChainHead { Chain = 1, Position = 99, Sha256 = noted[0].Sha256 }))[^1].Summary;

        Assert.Null(held.FirstBreak);
        Assert.Equal(ChainFault.NotedHeadMissing, lost.FirstBreak.Fault);
    }

    [Fact]
    public async Task Verify_HeadThatIsNone_IsRefusedByField()
    {
        await using var server = await TestServer.StartAsync();

        var error = await Assert.ThrowsAsync<RpcException>(() => VerifyAsync(server, new ChainHead { Chain = 1, Position = 1, Sha256 = "12" }));

        Assert.Equal(StatusCode.InvalidArgument, error.StatusCode);
        Assert.Contains("noted_heads[0]", error.Status.Detail, StringComparison.Ordinal);
    }

    private static async Task<List<string>> PostAsync(TestServer server, int count)
    {
        List<string> ids = [];
        for (var i = 0; i < count; i++)
        {
            var request = new PostReadingRequest
            {
                ReadingId = Guid.NewGuid().ToString("D"),
                Measurement = WireExamples.Sphere(),
                Method = WireExamples.Method(),
            };
            await server.Readings.PostReadingAsync(request, cancellationToken: Token);
            ids.Add(request.ReadingId);
        }

        return ids;
    }

    private static async Task<List<VerifyChainResponse>> VerifyAsync(TestServer server, params ChainHead[] noted)
    {
        using var call = server.Audit.VerifyChain(new VerifyChainRequest { NotedHeads = { noted } }, cancellationToken: Token);
        return await call.ResponseStream.ReadAllAsync(Token).ToListAsync(Token);
    }
}

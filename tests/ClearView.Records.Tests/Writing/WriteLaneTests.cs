using ClearView.Records.Model;
using ClearView.Records.Writing;

namespace ClearView.Records.Tests.Writing;

/// <summary>Once a write of a lane fails, none behind it is committed; other writes go on.</summary>
public sealed class WriteLaneTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Write_OneOfTheLaneFailed_FailsWhatIsBehindItAndNothingElse()
    {
        var committer = new FragileCommitter();
        await using var writer = new GroupWriter<NumberedWrite>(committer, TimeProvider.System);
        var lane = new WriteLane();
        var first = WriteAsync(writer, 1, lane);
        List<Task<NumberedWrite>> behind = [];
        Task<NumberedWrite>? alone = null;
        await committer.CommitOneAsync(new IOException("disk full"), () =>
        {
            behind.AddRange(Enumerable.Range(2, 3).Select(number => WriteAsync(writer, number, lane)));
            alone = WriteAsync(writer, 9, lane: null);
        });
        await committer.CommitOneAsync(failure: null);

        Assert.Equal(9, (await alone!).Number);
        await Assert.ThrowsAsync<StoreUnavailableException>(() => first);
        foreach (var one in behind)
        {
            await Assert.ThrowsAsync<StoreUnavailableException>(() => one);
        }

        // Later ones as well; a new lane goes on.
        await Assert.ThrowsAsync<StoreUnavailableException>(() => WriteAsync(writer, 5, lane));
        var anew = WriteAsync(writer, 1, new WriteLane());
        await committer.CommitOneAsync(failure: null);
        await anew;
        Assert.Equal([9, 1], committer.Committed);
    }

    [Fact]
    public async Task Write_RefusedByTheSchema_EndsItsLaneWithinTheBatch()
    {
        var committer = new FragileCommitter { FailsForOne = true };
        await using var writer = new GroupWriter<NumberedWrite>(committer, TimeProvider.System);
        var lane = new WriteLane();
        var opening = WriteAsync(writer, 0, lane: null);
        Task<NumberedWrite>? refused = null, behind = null, alone = null;
        await committer.CommitOneAsync(failure: null, () =>
        {
            refused = WriteAsync(writer, 1, lane);
            behind = WriteAsync(writer, 2, lane);
            alone = WriteAsync(writer, 3, lane: null);
        });
        await committer.CommitOneAsync(new IOException("the batch"));
        await committer.CommitOneAsync(new IOException("the first, by itself"));
        await committer.CommitOneAsync(failure: null);

        await opening;
        await Assert.ThrowsAsync<ArgumentException>(() => refused!);
        await Assert.ThrowsAsync<StoreUnavailableException>(() => behind!);
        await alone!;
        Assert.Equal([0, 3], committer.Committed);
    }

    private static Task<NumberedWrite> WriteAsync(GroupWriter<NumberedWrite> writer, int number, WriteLane? lane)
    {
        var write = new NumberedWrite(number) { Lane = lane };
        return writer.WriteAsync(write, write.Task, Token);
    }
}

using ClearView.Records.Postgres;

namespace ClearView.Records.Tests.Postgres;

/// <summary>Which places in the order of recording a server knows as its own; a plain set is the measure.</summary>
public sealed class OwnSequencesTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Own_TakenKeptAndForgotten_IsWhatASetSays(int seed)
    {
        var random = new Random(seed);
        var own = new OwnSequences();
        HashSet<long> kept = [];
        var next = 1L;
        for (var transaction = 0; transaction < 200; transaction++)
        {
            List<long> taken = [];
            for (var i = random.Next(5); i >= 0; i--)
            {
                next += random.Next(4) == 0 ? 2 : 1;
                taken.Add(next);
            }

            own.Take(taken.AsEnumerable().Reverse());
            if (random.Next(4) == 0)
            {
                own.Forget();
            }
            else
            {
                own.Keep();
                kept.UnionWith(taken);
            }
        }

        for (var place = 0L; place <= next + 1; place++)
        {
            Assert.Equal(kept.Contains(place), own.Contain(place));
        }

        for (var i = 0; i < 2000; i++)
        {
            var after = random.NextInt64(next);
            var before = after + random.Next(12);
            var covered = true;
            for (var place = after + 1; place < before; place++)
            {
                covered &= kept.Contains(place);
            }

            Assert.Equal(covered, own.Cover(after, before));
        }
    }

    [Fact]
    public void Take_MoreStretchesThanAreRemembered_TellsHowFarItForgot()
    {
        var own = new OwnSequences();
        own.Take(Enumerable.Range(1, OwnSequences.MostStretches + 1).Select(i => 2L * i));

        Assert.Equal(OwnSequences.MostStretches, own.ForgottenThrough);
        Assert.True(own.Contain(own.ForgottenThrough + 2));
        Assert.False(own.Contain(own.ForgottenThrough));
    }
}

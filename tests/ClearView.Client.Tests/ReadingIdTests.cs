using ClearView.V1;

using Google.Protobuf;

namespace ClearView.Client.Tests;

public class ReadingIdTests
{
    private static Measurement Measurement => new() { Identification = new Identification { Specimen = "F-1" } };

    private static Method Method => new() { HazeStandard = HazeStandard.AstmD1003ProcedureB };

    /// <remarks>
    /// Computed apart from this project with Python's hashlib:
    /// sha256(b"clearview.v1.reading-id\n" + len8(m) + m + len8(n) + n)[:16], m = 1a052a03462d31, n = 0802,
    /// then version 8 and variant bits of RFC 9562 set.
    /// </remarks>
    [Fact]
    public void ForContent_KnownBytes_GivesTheKnownIdentifier()
    {
        Assert.Equal("1a052a03462d31", Convert.ToHexStringLower(Measurement.ToByteArray()));
        Assert.Equal("0802", Convert.ToHexStringLower(Method.ToByteArray()));

        Assert.Equal("4a6c912f-1b38-84ff-83b7-98d51e14ceca", ReadingId.ForContent(Measurement, Method).ToString());
    }

    [Fact]
    public void ForContent_IsOfVersion8AndDiffersByEitherPart()
    {
        var id = ReadingId.ForContent(Measurement, Method);
        var otherMeasurement = Measurement;
        otherMeasurement.Identification.Specimen = "F-2";
        var otherMethod = Method;
        otherMethod.YellownessIndices.Add(YellownessIndex.AstmE313);

        Assert.Equal(8, id.Version);
        Assert.Equal(id, ReadingId.ForContent(Measurement, Method));
        Assert.NotEqual(id, ReadingId.ForContent(otherMeasurement, Method));
        Assert.NotEqual(id, ReadingId.ForContent(Measurement, otherMethod));
    }

    [Fact]
    public void New_IsOfVersion7() => Assert.Equal(7, ReadingId.New().Version);
}

using ClearView.Contract.Tests;
using ClearView.Server.Mapping;
using ClearView.V1;

using Google.Protobuf;

namespace ClearView.Server.Tests.Mapping;

public sealed class MessageDiffTests
{
    [Fact]
    public void Compare_Equal_GivesNothing() => Assert.Empty(Differences(_ => { }));

    [Fact]
    public void Compare_Number_GivesBothValues() =>
        Assert.Equal(["m.conditions.aperture_mm: stored 25.4, posted 10."], Differences(posted => posted.Conditions.ApertureMm = 10));

    [Fact]
    public void Compare_Text_IsQuotedAndCut() =>
        Assert.Equal(
            ["m.conditions.operator: stored \"M. Arden\", posted \"" + new string('x', 60) + "…\"."],
            Differences(posted => posted.Conditions.Operator = new string('x', 99)));

    [Fact]
    public void Compare_Enumerator_IsNamedAsInTheContract() =>
        Assert.Equal(
            ["m.conditions.uv_filter: stored UV_FILTER_NONE, posted UV_FILTER_CUTOFF_420_NM."],
            Differences(posted => posted.Conditions.UvFilter = UvFilter.Cutoff420Nm));

    [Fact]
    public void Compare_OptionalZeroAgainstAbsent_IsADifference() =>
        Assert.Equal(
            ["m.conditions.conditioning_hours: stored nothing, posted 0."],
            Differences(posted => posted.Conditions.ConditioningHours = 0));

    [Fact]
    public void Compare_OtherForm_NamesBothForms() =>
        Assert.Equal(
            ["m.scans.sphere: stored nothing, posted a SphereScans.", "m.scans.normalised: stored a NormalisedScans, posted nothing."],
            Differences(posted => posted.Scans = WireExamples.Sphere().Scans));

    [Fact]
    public void Compare_ListOfOtherLength_GivesBothCounts() =>
        Assert.Equal(
            ["m.scans.normalised.total_transmittance: stored 43 values, posted 42."],
            Differences(posted => posted.Scans.Normalised.TotalTransmittance.RemoveAt(0)));

    [Fact]
    public void Compare_OneValueOfAList_GivesItsIndex() =>
        Assert.Equal(
            ["m.scans.normalised.total_transmittance[42]: stored 0.9, posted 0.91."],
            Differences(posted => posted.Scans.Normalised.TotalTransmittance[42] = 0.91));

    [Fact]
    public void Compare_SignOfZeroAndBitsOfNaN_AreDifferences()
    {
        Assert.Equal(
            ["m.scans.normalised.diffuse_transmittance[0]: stored 0, posted -0."],
            Differences(
                posted => posted.Scans.Normalised.DiffuseTransmittance[0] = -0.0,
                stored => stored.Scans.Normalised.DiffuseTransmittance[0] = 0.0));
        Assert.Single(Differences(
            posted => posted.Scans.Normalised.DiffuseTransmittance[0] = BitConverter.Int64BitsToDouble(0x7FF8_0000_0000_0001),
            stored => stored.Scans.Normalised.DiffuseTransmittance[0] = BitConverter.Int64BitsToDouble(0x7FF8_0000_0000_0002)));
    }

    [Fact]
    public void Compare_Time_IsShownAsTime() =>
        Assert.Equal(
            ["m.measured_at: stored 2026-11-25T12:00:00Z, posted 2026-11-25T12:00:01Z."],
            Differences(posted => posted.MeasuredAt.Seconds++));

    [Fact]
    public void Compare_OnlyUnknownFields_SaysSo()
    {
        // Field 99, varint 1: what a newer client might send.
        var posted = Measurement.Parser.ParseFrom([.. WireExamples.Normalised().ToByteArray(), 0x98, 0x06, 0x01]);

        var difference = Assert.Single(MessageDiff.Compare(WireExamples.Normalised(), posted, "m"));

        Assert.Equal("m", difference.Field);
        Assert.Contains("does not know", difference.Description, StringComparison.Ordinal);
    }

    private static IEnumerable<string> Differences(Action<Measurement> change, Action<Measurement>? prepare = null)
    {
        var stored = WireExamples.Normalised();
        prepare?.Invoke(stored);
        var posted = stored.Clone();
        change(posted);
        return MessageDiff.Compare(stored, posted, "m").Select(difference => $"{difference.Field}: {difference.Description}");
    }
}

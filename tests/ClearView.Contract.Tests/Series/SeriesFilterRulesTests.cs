using ClearView.Contract.Series;
using ClearView.Contract.Validation;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Contract.Tests.Series;

/// <summary>Rules for which stored readings make a series.</summary>
public class SeriesFilterRulesTests
{
    private static readonly string Longest = new('x', 100);

    [Fact]
    public void Check_WhatIsAllowed_FindsTheMeasurand()
    {
        var violations = new Violations();

        string? found = SeriesFilterRules.Check(
            new StoredSeries
            {
                Filter = new SeriesFilter { Measurand = "yellowness_index_e313", Line = Longest, Product = Longest, Lot = Longest, Roll = Longest, Instrument = Longest },
                Span = new MeasuredSpan { MeasuredFrom = GivenExamples.At(0), MeasuredBefore = GivenExamples.At(1) },
            },
            "stored",
            violations)?.Id;

        Assert.Empty(violations.ToImmutable());
        Assert.Equal("yellowness_index_e313", found);
    }

    [Fact]
    public void Check_EveryFieldAtFault_IsNamedAtOnce()
    {
        string tooLong = Longest + "x";

        Assert.Equal(
            ["stored.filter.measurand", "stored.filter.line", "stored.filter.product", "stored.filter.lot", "stored.filter.roll", "stored.filter.instrument", "stored.span.measured_before"],
            Faults(new StoredSeries
            {
                Filter = new SeriesFilter { Measurand = "Haze", Line = tooLong, Product = tooLong, Lot = "two\nlines", Roll = tooLong, Instrument = tooLong },
                Span = new MeasuredSpan { MeasuredFrom = GivenExamples.At(1), MeasuredBefore = GivenExamples.At(1) },
            }));
    }

    [Fact]
    public void Check_TimesThatAreNone_AreNamed() => Assert.Equal(
        ["stored.span.measured_from", "stored.span.measured_before"],
        Faults(new StoredSeries
        {
            Filter = new SeriesFilter { Measurand = "haze" },
            Span = new MeasuredSpan { MeasuredFrom = new Timestamp { Seconds = -62_135_596_801 }, MeasuredBefore = new Timestamp { Nanos = 1_000_000_000 } },
        }));

    [Fact]
    public void Check_NoFilter_IsNamed() => Assert.Equal(["stored.filter"], Faults(new StoredSeries()));

    private static string[] Faults(StoredSeries stored)
    {
        var violations = new Violations();
        SeriesFilterRules.Check(stored, "stored", violations);
        return [.. violations.ToImmutable().Select(violation => violation.Field)];
    }
}

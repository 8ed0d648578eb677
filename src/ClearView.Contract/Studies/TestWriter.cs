using ClearView.Quality.Descriptive;
using ClearView.Quality.Lots;

namespace ClearView.Contract.Studies;

/// <summary>Writes tests and intervals to the wire.</summary>
internal static class TestWriter
{
    public static V1.ValueInterval? Write(Interval? interval) =>
        interval is { } known ? new V1.ValueInterval { Lower = known.Lower, Upper = known.Upper } : null;

    public static V1.StatedTest Write(Stated<FTest> stated) => Write(stated, test => new V1.StatedTest
    {
        Statistic = test.F,
        NumeratorDegreesOfFreedom = test.NumeratorDegreesOfFreedom,
        DegreesOfFreedom = test.DenominatorDegreesOfFreedom,
        PValueFraction = test.PValue,
    });

    public static V1.StatedTest Write(Stated<KruskalWallisTest> stated) => Write(stated, test => new V1.StatedTest
    {
        Statistic = test.H,
        DegreesOfFreedom = test.DegreesOfFreedom,
        PValueFraction = test.PValue,
    });

    public static V1.StatedTest Write(Stated<TTest> stated) => Write(stated, test => new V1.StatedTest
    {
        Statistic = test.T,
        DegreesOfFreedom = test.DegreesOfFreedom,
        PValueFraction = test.PValue,
        Interval = Write(test.Interval),
    });

    public static V1.StatedTest Write(Stated<EquivalenceTest> stated) => Write(stated, test => new V1.StatedTest
    {
        Statistic = test.T,
        DegreesOfFreedom = test.DegreesOfFreedom,
        PValueFraction = test.PValue,
        Interval = Write(test.Interval),
    });

    public static V1.StatedTest Write(Stated<RangeTest> stated) => Write(stated, Write);

    public static V1.StatedTest Write(RangeTest test) => new()
    {
        Statistic = test.Q,
        DegreesOfFreedom = test.DegreesOfFreedom,
        PValueFraction = test.PValue,
        Interval = Write(test.Interval),
    };

    private static V1.StatedTest Write<T>(Stated<T> stated, Func<T, V1.StatedTest> write)
        where T : class => stated.Value is { } value ? write(value) : new V1.StatedTest { Refusal = stated.Explanation ?? "" };
}

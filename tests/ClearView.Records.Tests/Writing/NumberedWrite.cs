using ClearView.Records.Writing;

namespace ClearView.Records.Tests.Writing;

/// <summary>A write with a number.</summary>
internal sealed class NumberedWrite(int number) : Promise<NumberedWrite>
{
    /// <summary>The number.</summary>
    public int Number => number;
}

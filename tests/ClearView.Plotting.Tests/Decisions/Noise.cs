namespace ClearView.Plotting.Tests.Decisions;

/// <summary>The same normally distributed values in every run.</summary>
internal sealed class Noise(uint seed)
{
    private uint _state = seed;

    /// <summary>A standard normal value (Box and Muller 1958).</summary>
    public double Next() => Math.Sqrt(-2 * Math.Log(Uniform())) * Math.Cos(2 * Math.PI * Uniform());

    /// <summary>A value above 0, 1 at most.</summary>
    public double Uniform()
    {
        _state = (1664525 * _state) + 1013904223;
        return (_state + 1.0) / 4294967296;
    }
}

using ClearView.Contract.Tests;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.EndToEnd.Tests.Lines;

/// <summary>Makes readings of one line, each different.</summary>
/// <param name="line">The line.</param>
/// <param name="seed">Start of the random scans.</param>
internal sealed class ReadingMaker(string line, int seed)
{
    private readonly Random _random = new(seed);
    private int _made;

    public PostReadingRequest Next()
    {
        var measurement = WireExamples.Sphere();
        measurement.MeasuredAt = DateTimeOffset.UtcNow.ToTimestamp();
        measurement.Identification.Line = line;
        measurement.Identification.Specimen = FormattableString.Invariant($"{_made++:d5}");
        var scan = measurement.Scans.Sphere.TotalReading;
        for (var i = 0; i < scan.Count; i++)
        {
            scan[i] = 850 + (100 * _random.NextDouble());
        }

        return new PostReadingRequest
        {
            ReadingId = Guid.CreateVersion7().ToString(),
            Measurement = measurement,
            Method = WireExamples.Method(),
        };
    }

    public List<PostReadingRequest> Next(int count) => [.. Enumerable.Range(0, count).Select(_ => Next())];
}

using System.Collections.Immutable;

using ClearView.Quality.Descriptive;

namespace ClearView.Quality.Lots;

/// <summary>A lot: the values of its specimens, one value per specimen, and where they were aged, for how long.</summary>
/// <remarks>Immutable. Repeated readings of one specimen are averaged before they come here: they are not further specimens.</remarks>
public sealed record Lot
{
    /// <summary>Takes the specimens.</summary>
    /// <param name="name">Name of the lot, not empty.</param>
    /// <param name="values">Value of each specimen in the measurand's unit; at least one, each finite.</param>
    /// <param name="ageingTimesH">Ageing time of each specimen in hours, not negative; <see langword="null"/> where none was aged.</param>
    /// <exception cref="ArgumentException">The name is empty, a value is not finite, or the times do not match the values.</exception>
    public Lot(string name, IReadOnlyCollection<double> values, IReadOnlyCollection<double>? ageingTimesH = null)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        Guard.Values(values);
        if (ageingTimesH is not null)
        {
            Guard.Values(ageingTimesH);
            if (ageingTimesH.Count != values.Count)
            {
                throw new ArgumentException($"Lot {name} has {values.Count} values but {ageingTimesH.Count} ageing times.", nameof(ageingTimesH));
            }

            if (ageingTimesH.Any(time => time < 0))
            {
                throw new ArgumentException($"Lot {name} has a negative ageing time.", nameof(ageingTimesH));
            }
        }

        Name = name;
        Values = [.. values];
        AgeingTimesH = ageingTimesH is null ? null : [.. ageingTimesH];
    }

    /// <summary>Name.</summary>
    public string Name { get; }

    /// <summary>Values, in the order given.</summary>
    public ImmutableArray<double> Values { get; }

    /// <summary>Ageing times in hours, in the order of the values.</summary>
    public ImmutableArray<double>? AgeingTimesH { get; }
}

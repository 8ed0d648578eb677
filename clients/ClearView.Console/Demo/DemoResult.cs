using System.Collections.Immutable;

using ClearView.V1;

namespace ClearView.Console.Demo;

/// <summary>What the server of a demonstration gave back.</summary>
internal sealed record DemoResult
{
    /// <summary>Readings of the film shift, with their verdicts, as they are listed.</summary>
    public required ImmutableArray<Reading> Film { get; init; }

    /// <summary>Readings of the bottle set.</summary>
    public required ImmutableArray<Reading> Bottles { get; init; }

    /// <summary>The specification that the film was posted under.</summary>
    public required NamedSpecification FilmSpecification { get; init; }

    /// <summary>Signals in the order in which posted readings raised them.</summary>
    public required ImmutableArray<(string Specimen, RaisedSignal Signal)> Signals { get; init; }

    /// <summary>The control chart of the film's haze, part by part.</summary>
    public required ImmutableArray<DrawnControlChart> HazeChart { get; init; }

    /// <summary>Capability of the film's haze.</summary>
    public required Capability Capability { get; init; }

    /// <summary>Map of the contaminated roll.</summary>
    public required RollMap RollMap { get; init; }

    /// <summary>The resin lots compared.</summary>
    public required CompareLotsResponse Lots { get; init; }

    /// <summary>The amber bottles judged.</summary>
    public required JudgeSpecimensResponse Bottle { get; init; }
}

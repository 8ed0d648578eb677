using System.Collections.Immutable;

using ClearView.Console.Judging;
using ClearView.V1;

namespace ClearView.Console.Rendering;

/// <summary>One specimen with what came of it.</summary>
internal sealed record SpecimenResult
{
    /// <summary>The measurement.</summary>
    public required Measurement Measurement { get; init; }

    /// <summary>The evaluation; <see langword="null"/> where it was refused.</summary>
    public Evaluation? Evaluation { get; init; }

    /// <summary>Every field at fault; empty where there is an evaluation.</summary>
    public ImmutableArray<FieldViolation> Violations { get; init; } = [];

    /// <summary>What the limits say; <see langword="null"/> where there are none.</summary>
    public LimitsVerdict? Verdict { get; init; }

    /// <summary>The file it comes from; <see langword="null"/> for a stored reading.</summary>
    public string? FilePath { get; init; }

    /// <summary>The line of the file.</summary>
    public int? Line { get; init; }

    /// <summary>What the file reader left aside.</summary>
    public ImmutableArray<string> Notes { get; init; } = [];

    /// <summary>The stored reading, where there is one.</summary>
    public Reading? Reading { get; init; }

    /// <summary>Whether an earlier post had already stored it; <see langword="null"/> where nothing was posted.</summary>
    public bool? AlreadyStored { get; init; }

    /// <summary>Signals that the post raised on control charts.</summary>
    public ImmutableArray<RaisedSignal> Signals { get; init; } = [];

    /// <summary>The specimen's name.</summary>
    public string Specimen => Measurement.Identification?.Specimen ?? "";
}

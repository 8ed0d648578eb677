using System.Collections.Immutable;

namespace ClearView.Records.Model;

/// <summary>A reading as it is handed to the store.</summary>
/// <remarks>
/// Payloads are opaque to the store: it gives back the bytes that it was given. Texts are "" where they are absent.
/// </remarks>
public sealed record ReadingEntry
{
    /// <summary>The reading's identifier, chosen by its poster; unique in the store.</summary>
    public required Guid Id { get; init; }

    /// <summary>When the specimen was measured. Indexed to 100 ns; the payload keeps what was posted.</summary>
    public required DateTimeOffset MeasuredAt { get; init; }

    /// <summary>Production line.</summary>
    public string Line { get; init; } = "";

    /// <summary>Product.</summary>
    public string Product { get; init; } = "";

    /// <summary>Resin or production lot.</summary>
    public string Lot { get; init; } = "";

    /// <summary>Roll of film.</summary>
    public string Roll { get; init; } = "";

    /// <summary>Specimen.</summary>
    public string Specimen { get; init; } = "";

    /// <summary>Instrument.</summary>
    public string Instrument { get; init; } = "";

    /// <summary>Place across the web, mm; <see langword="null"/> where there is none. Finite.</summary>
    public double? AcrossMm { get; init; }

    /// <summary>Place along the web, m; <see langword="null"/> where there is none. Finite.</summary>
    public double? AlongM { get; init; }

    /// <summary>The measurement, serialised.</summary>
    public required ReadOnlyMemory<byte> Measurement { get; init; }

    /// <summary>The method, serialised.</summary>
    public required ReadOnlyMemory<byte> Method { get; init; }

    /// <summary>The evaluation, serialised.</summary>
    public required ReadOnlyMemory<byte> Evaluation { get; init; }

    /// <summary>Version of the software that evaluated the measurement.</summary>
    public required string SoftwareVersion { get; init; }

    /// <summary>The verdict, serialised; empty where the reading was not judged.</summary>
    public ReadOnlyMemory<byte> Verdict { get; init; }

    /// <summary>Who made the reading, from where and with what, serialised; empty where it is not known.</summary>
    public ReadOnlyMemory<byte> Origin { get; init; }

    /// <summary>The reading that this one takes the place of; <see langword="null"/> for none.</summary>
    public Guid? Corrects { get; init; }

    /// <summary>Why it does, and who says so, serialised; empty where it corrects none.</summary>
    public ReadOnlyMemory<byte> CorrectionNote { get; init; }

    /// <summary>What the picture of the specimen is, serialised; empty where there is none.</summary>
    public ReadOnlyMemory<byte> PictureInfo { get; init; }

    /// <summary>The picture; empty where there is none. A reading that is read back has none: it is read by itself.</summary>
    public ReadOnlyMemory<byte> Picture { get; init; }

    /// <summary>
    /// Values of the evaluation, each finite, each measurand once. They go into the series; a reading that is read back has none,
    /// since its evaluation holds them.
    /// </summary>
    public ImmutableArray<MeasurandValue> Values { get; init; } = [];

    /// <summary>
    /// Whether signals are going to be worked out for the reading once it is stored: it is not listed in the order of recording before
    /// <see cref="IRecordedStore.SettleAsync"/> was called. A reading that is read back says <see langword="false"/>.
    /// </summary>
    public bool AwaitsSignals { get; init; }

    /// <summary>Bytes of the payloads together.</summary>
    public long PayloadLength => (long)Measurement.Length + Method.Length + Evaluation.Length + Verdict.Length + Origin.Length;

    /// <summary>The entry as it is read back: without its values and its picture.</summary>
    internal ReadingEntry WithoutParts() => this with { Values = [], Picture = ReadOnlyMemory<byte>.Empty, AwaitsSignals = false };

    /// <summary>The entry with buffers of its own, and its time in UTC, as a later reader will see it.</summary>
    internal ReadingEntry Detached() => this with
    {
        MeasuredAt = MeasuredAt.ToUniversalTime(),
        Measurement = Measurement.ToArray(),
        Method = Method.ToArray(),
        Evaluation = Evaluation.ToArray(),
        Verdict = Verdict.ToArray(),
        Origin = Origin.ToArray(),
        CorrectionNote = CorrectionNote.ToArray(),
        PictureInfo = PictureInfo.ToArray(),
        Picture = Picture.ToArray(),
    };
}

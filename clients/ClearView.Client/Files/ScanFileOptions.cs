using System.Collections.Immutable;

using ClearView.V1;

namespace ClearView.Client.Files;

/// <summary>What the person who reads a scan file knows and the file does not say.</summary>
/// <remarks>Nothing here is guessed when it is left out: the reader then wants it from the file, and says so.</remarks>
public sealed record ScanFileOptions
{
    /// <summary>No help at all: the file says everything.</summary>
    public static ScanFileOptions None { get; } = new();

    /// <summary>Scale of total and diffuse columns whose header gives none; a header that says otherwise is an error.</summary>
    public TransmittanceUnit? TransmittanceUnit { get; init; }

    /// <summary>
    /// Whether a wavelength column whose header gives no unit is in nm. <see langword="false"/> refuses such a file.
    /// </summary>
    public bool WavelengthsAreNm { get; init; }

    /// <summary>Separator of cells: comma, semicolon or tab; <see langword="null"/> takes the one that makes a header row.</summary>
    public char? Separator { get; init; }

    /// <summary>Decimal mark: point or comma; <see langword="null"/> takes the first one that the file uses, and holds the file to it.</summary>
    public char? DecimalMark { get; init; }

    /// <summary>Values by key of <see cref="ScanFileKeys"/>, used where the file gives none.</summary>
    public ImmutableSortedDictionary<string, string> Defaults { get; init; } = ImmutableSortedDictionary<string, string>.Empty;

    /// <summary>Values by key of <see cref="ScanFileKeys"/>, used instead of what the file gives.</summary>
    public ImmutableSortedDictionary<string, string> Overrides { get; init; } = ImmutableSortedDictionary<string, string>.Empty;

    /// <summary>
    /// Whether a wavelength that is missing from an otherwise even scan is accepted. <see langword="false"/> refuses it,
    /// since a lost row is the likelier reason.
    /// </summary>
    public bool AcceptGaps { get; init; }

    /// <summary>
    /// Whether columns that the reader does not know are left aside with a note. <see langword="false"/> refuses them,
    /// since a misspelt header would otherwise lose data.
    /// </summary>
    public bool IgnoreUnknownColumns { get; init; }
}

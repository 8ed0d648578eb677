using System.Globalization;
using System.Security.Cryptography;

using ClearView.Records.Model;
using ClearView.V1;

using Google.Protobuf;

namespace ClearView.Server.Mapping;

/// <summary>Whether a post repeats what is stored under its identifier.</summary>
/// <remarks>
/// A method that was chosen by name is the same where the name is: a name without a version means whichever version the first
/// post found. A version that is named has to be the stored one. An origin may differ: what is repeated from elsewhere, or by a newer
/// program, is the same reading, and the first origin stands.
/// </remarks>
internal static class PostedBody
{
    /// <summary>Whether the post says the same as the stored reading.</summary>
    public static bool IsSame(StoredReading stored, PostReadingRequest request)
    {
        if (request.Measurement is null || !stored.Entry.Measurement.Span.SequenceEqual(request.Measurement.ToByteArray()))
        {
            return false;
        }

        if (!IsSameSpecification(SpecificationOf(stored), request.SpecificationName) || !IsSameCorrection(stored, request) || !IsSamePicture(stored, request))
        {
            return false;
        }

        var name = Evaluation.Parser.ParseFrom(stored.Entry.Evaluation.Span).MethodName;
        return request.MethodChoiceCase switch
        {
            PostReadingRequest.MethodChoiceOneofCase.Method =>
                name is null && stored.Entry.Method.Span.SequenceEqual(request.Method.ToByteArray()),
            PostReadingRequest.MethodChoiceOneofCase.MethodName => name is not null && IsSameName(name, request.MethodName),

            // Without a choice of its own the post leaves the method to the specification; what the first post chose stands.
            _ => request.SpecificationName is not null && name is not null,
        };
    }

    /// <summary>In what the post differs from the stored reading, field by field.</summary>
    public static List<FieldViolation> Differences(StoredReading stored, PostReadingRequest request)
    {
        var reading = ReadingMapper.ToReading(stored);
        var differences = MessageDiff.Compare(reading.Measurement, request.Measurement, "measurement");
        var name = reading.Evaluation.MethodName;
        if (request.Method is not null)
        {
            differences.AddRange(MessageDiff.Compare(reading.Method, request.Method, "method"));
        }

        var specification = SpecificationOf(stored);
        if (!IsSameSpecification(specification, request.SpecificationName))
        {
            differences.Add(new FieldViolation
            {
                Field = "specification_name",
                Description = $"stored {Show(specification)}, posted {Show(request.SpecificationName)}.",
            });
        }

        var methodFollows = request.MethodChoiceCase == PostReadingRequest.MethodChoiceOneofCase.None && request.SpecificationName is not null;
        if (!methodFollows
            && ((name is null) != (request.MethodName is null) || (name is not null && !IsSameName(name, request.MethodName!))))
        {
            differences.Add(new FieldViolation
            {
                Field = "method_name",
                Description = $"stored {Show(name)}, posted {Show(request.MethodName)}.",
            });
        }

        if (!IsSameCorrection(stored, request))
        {
            differences.Add(new FieldViolation
            {
                Field = "corrects",
                Description = $"stored {Show(reading.Corrects)}, posted {Show(request.Corrects)}.",
            });
        }

        if (!IsSamePicture(stored, request))
        {
            differences.Add(new FieldViolation { Field = "picture", Description = "is another one than the stored, or one of the two is missing." });
        }

        return differences;
    }

    private static bool IsSameCorrection(StoredReading stored, PostReadingRequest request) =>
        stored.Entry.CorrectionNote.Span.SequenceEqual(request.Corrects?.ToByteArray() ?? []);

    private static bool IsSamePicture(StoredReading stored, PostReadingRequest request) => stored.Entry.PictureInfo.IsEmpty
        ? request.Picture.IsEmpty
        : PictureInfo.Parser.ParseFrom(stored.Entry.PictureInfo.Span).Sha256 == Convert.ToHexStringLower(SHA256.HashData(request.Picture.Span));

    private static string Show(Correction? correction) => correction is null ? "no correction" : $"a correction of {correction.ReadingId}";

    private static bool IsSameName(MethodName stored, MethodName posted) =>
        stored.Name == posted.Name && (posted.Version == 0 || posted.Version == stored.Version);

    private static SpecificationName? SpecificationOf(StoredReading stored) =>
        stored.Entry.Verdict.IsEmpty ? null : Verdict.Parser.ParseFrom(stored.Entry.Verdict.Span).SpecificationName;

    private static bool IsSameSpecification(SpecificationName? stored, SpecificationName? posted) =>
        stored?.Name == posted?.Name && (posted is null || posted.Version == 0 || posted.Version == stored!.Version);

    private static string Show(SpecificationName? name) => name switch
    {
        null => "without a specification",
        { Version: 0 } => $"\"{name.Name}\"",
        _ => string.Create(CultureInfo.InvariantCulture, $"\"{name.Name}\" in version {name.Version}"),
    };

    private static string Show(MethodName? name) => name switch
    {
        null => "a method without a name",
        { Version: 0 } => $"\"{name.Name}\"",
        _ => string.Create(CultureInfo.InvariantCulture, $"\"{name.Name}\" in version {name.Version}"),
    };
}

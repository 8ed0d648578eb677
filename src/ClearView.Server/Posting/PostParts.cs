using ClearView.Contract.Pictures;
using ClearView.Contract.Validation;
using ClearView.Records.Model;
using ClearView.Server.Mapping;
using ClearView.V1;

using Google.Protobuf;

using Grpc.Core;

namespace ClearView.Server.Posting;

/// <summary>What a post brings beside its measurement: its origin, what it corrects, and a picture.</summary>
internal static class PostParts
{
    /// <summary>Checks them.</summary>
    /// <param name="request">The post.</param>
    /// <param name="id">Its identifier.</param>
    /// <param name="clock">The clock that times may not be far ahead of.</param>
    /// <param name="violations">Takes what is at fault.</param>
    /// <returns>What the picture is; <see langword="null"/> where there is none, or it is at fault.</returns>
    public static PictureInfo? Check(PostReadingRequest request, Guid id, TimeProvider clock, List<FieldViolation> violations)
    {
        var found = new Violations();
        OriginRules.Check(request.Origin, "origin", clock, found);
        OriginRules.Check(request.Corrects, "corrects", found);
        if (request.Corrects is { } correction)
        {
            if (!Guid.TryParseExact(correction.ReadingId, "D", out var corrected))
            {
                found.Add("corrects.reading_id", $"was \"{correction.ReadingId}\"; expected the identifier of a stored reading, a UUID of 36 characters.");
            }
            else if (corrected == id)
            {
                found.Add("corrects.reading_id", $"was the identifier of the post itself; expected that of an earlier reading.");
            }
        }

        PictureInfo? picture = null;
        if (!request.Picture.IsEmpty && PictureChecker.Check(request.Picture.Span, out picture) is { } fault)
        {
            found.Add("picture", $"{fault}");
        }

        violations.AddRange(found.ToImmutable());
        return picture;
    }

    /// <summary>Adds them to what is stored.</summary>
    /// <param name="entry">The reading without them.</param>
    /// <param name="request">The post, checked.</param>
    /// <param name="source">Where it comes from.</param>
    /// <param name="picture">What its picture is.</param>
    public static ReadingEntry Add(ReadingEntry entry, PostReadingRequest request, PostSource source, PictureInfo? picture)
    {
        var origin = new RecordedOrigin { Posted = request.Origin, Peer = source.Peer, KeyName = source.KeyName };
        return entry with
        {
            Origin = origin.ToByteArray(),
            Corrects = request.Corrects is { } correction ? Guid.ParseExact(correction.ReadingId, "D") : null,
            CorrectionNote = request.Corrects?.ToByteArray() ?? [],
            PictureInfo = picture?.ToByteArray() ?? [],
            Picture = request.Picture.Memory,
        };
    }

    /// <summary>Why a correction was not taken.</summary>
    public static PostFault ToFault(CorrectionRefusal refusal, Correction correction)
    {
        var (code, summary) = refusal.Fault switch
        {
            CorrectionFault.Superseded => (StatusCode.FailedPrecondition, refusal.SupersededBy is { } by
                ? $"reading {correction.ReadingId} is superseded by {ReadingIds.Write(by)} already; correct that one"
                : $"reading {correction.ReadingId} is superseded already; correct the one that took its place"),
            CorrectionFault.Retired => (StatusCode.FailedPrecondition,
                $"reading {correction.ReadingId} cannot be corrected: it was {refusal.Retired}"),
            _ => (StatusCode.NotFound, $"no reading {correction.ReadingId} is stored that could be corrected"),
        };
        return new PostFault(code, summary, []);
    }
}

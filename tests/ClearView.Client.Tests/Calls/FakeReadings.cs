using ClearView.V1;

using Google.Protobuf.WellKnownTypes;
using Google.Rpc;

using Grpc.Core;

namespace ClearView.Client.Tests.Calls;

/// <summary>Answers as it is told; counts the calls.</summary>
internal sealed class FakeReadings : ReadingService.ReadingServiceBase
{
    /// <summary>Calls still to fail.</summary>
    public int CallsToFail { get; set; }

    /// <summary>What failing calls say.</summary>
    public StatusCode Fault { get; set; } = StatusCode.Unavailable;

    /// <summary>Readings that a list has.</summary>
    public int Listed { get; set; }

    /// <summary>Whether the list gives the same page over and over.</summary>
    public bool ListStandsStill { get; set; }

    /// <summary>Identifiers that were posted.</summary>
    public List<string> PostedIds { get; } = [];

    /// <summary>Names of methods that were posted; <see langword="null"/> where the method itself was.</summary>
    public List<MethodName?> PostedNames { get; } = [];

    public override Task<PostReadingResponse> PostReading(PostReadingRequest request, ServerCallContext context)
    {
        PostedIds.Add(request.ReadingId);
        PostedNames.Add(request.MethodName);
        if (CallsToFail-- > 0)
        {
            throw Fault == StatusCode.InvalidArgument ? Violations() : new RpcException(new Grpc.Core.Status(Fault, "told to fail"));
        }
        return Task.FromResult(new PostReadingResponse { Reading = new Reading { ReadingId = request.ReadingId } });
    }

    /// <summary>What watches asked for.</summary>
    public List<WatchReadingsRequest> Watches { get; } = [];

    /// <summary>Answers of a watch before it breaks.</summary>
    public int WatchedBeforeBreak { get; set; } = int.MaxValue;

    /// <summary>What a watch ends with that breaks.</summary>
    public RpcException WatchBreak { get; set; } = new(new Grpc.Core.Status(StatusCode.Unavailable, "stopping"));

    /// <summary>Whether a watch first says where it stands, without a reading.</summary>
    public bool WatchSaysItsPlace { get; set; }

    /// <summary>The last reading that there is to watch; a watch breaks behind it.</summary>
    public int LastWatched { get; set; } = int.MaxValue;

    /// <summary>Whether a watch falls silent instead of breaking.</summary>
    public bool WatchFallsSilent { get; set; }

    // Readings are numbered without end; a position is the number of the last one.
    public override async Task WatchReadings(
        WatchReadingsRequest request, IServerStreamWriter<WatchReadingsResponse> responseStream, ServerCallContext context)
    {
        Watches.Add(request.Clone());
        if (CallsToFail-- > 0)
        {
            throw new RpcException(new Grpc.Core.Status(Fault, "told to fail"));
        }
        var place = request.Position.Length == 0 ? 0 : int.Parse(request.Position, System.Globalization.CultureInfo.InvariantCulture);
        if (WatchSaysItsPlace)
        {
            await responseStream.WriteAsync(new WatchReadingsResponse { Position = request.Position });
        }
        for (var sent = 0; sent < WatchedBeforeBreak && place < LastWatched; sent++)
        {
            var position = (++place).ToString(System.Globalization.CultureInfo.InvariantCulture);
            await responseStream.WriteAsync(new WatchReadingsResponse { Reading = new Reading { ReadingId = position }, Position = position });
        }
        if (WatchFallsSilent)
        {
            await Task.Delay(Timeout.Infinite, context.CancellationToken);
        }
        throw WatchBreak;
    }

    /// <summary>Streams still to break.</summary>
    public int StreamsToBreak { get; set; }

    /// <summary>Answers before a stream breaks.</summary>
    public int AnswersBeforeBreak { get; set; }

    /// <summary>What a stream ends with that breaks.</summary>
    public Grpc.Core.Status BreakStatus { get; set; } = new(StatusCode.Unavailable, "stopping");

    /// <summary>Streams that were opened.</summary>
    public int Streams { get; private set; }

    /// <summary>Identifiers that a stream refuses.</summary>
    public HashSet<string> RefusedIds { get; } = [];

    /// <summary>The code of what a stream refuses.</summary>
    public StatusCode RefusedWith { get; set; } = StatusCode.InvalidArgument;

    /// <summary>The field at fault of what a stream refuses.</summary>
    public string RefusedField { get; set; } = "measurement.conditions.aperture_mm";

    public override async Task PostReadings(
        IAsyncStreamReader<PostReadingsRequest> requestStream, IServerStreamWriter<PostReadingsResponse> responseStream, ServerCallContext context)
    {
        Streams++;
        var breaks = StreamsToBreak-- > 0;
        var answered = 0;
        await foreach (var request in requestStream.ReadAllAsync(context.CancellationToken))
        {
            if (breaks && answered++ == AnswersBeforeBreak)
            {
                // Stored, but not answered: what a server does that is killed in between.
                PostedIds.Add(request.Post.ReadingId);
                throw new RpcException(BreakStatus);
            }
            var response = new PostReadingsResponse { ReadingId = request.Post.ReadingId };
            if (RefusedIds.Contains(request.Post.ReadingId))
            {
                response.Refusal = new PostRefusal
                {
                    StatusCode = (uint)RefusedWith,
                    Message = "1 field is at fault",
                    FieldViolations = { new V1.FieldViolation { Field = RefusedField, Description = "was 0; expected above 0." } },
                };
            }
            else
            {
                response.Acknowledgement = new PostAcknowledgement { AlreadyStored = PostedIds.Contains(request.Post.ReadingId) };
                PostedIds.Add(request.Post.ReadingId);
            }
            await responseStream.WriteAsync(response);
        }
    }

    public override Task<GetReadingResponse> GetReading(GetReadingRequest request, ServerCallContext context) =>
        throw new RpcException(new Grpc.Core.Status(StatusCode.NotFound, $"no reading {request.ReadingId}"));

    public override Task<ListReadingsResponse> ListReadings(ListReadingsRequest request, ServerCallContext context)
    {
        var first = request.PageToken.Length == 0 || ListStandsStill ? 0 : int.Parse(request.PageToken, System.Globalization.CultureInfo.InvariantCulture);
        var response = new ListReadingsResponse();
        for (var i = first; i < Math.Min(Listed, first + request.PageSize); i++)
        {
            response.Readings.Add(new Reading { ReadingId = i.ToString(System.Globalization.CultureInfo.InvariantCulture) });
        }
        var next = first + request.PageSize;
        response.NextPageToken = next < Listed ? next.ToString(System.Globalization.CultureInfo.InvariantCulture) : "";
        return Task.FromResult(response);
    }

    private static RpcException Violations() => new Google.Rpc.Status
    {
        Code = (int)Code.InvalidArgument,
        Message = "2 fields are at fault",
        Details =
        {
            Any.Pack(new BadRequest
            {
                FieldViolations =
                {
                    new BadRequest.Types.FieldViolation { Field = "measurement.conditions.aperture_mm", Description = "was 0; expected above 0." },
                    new BadRequest.Types.FieldViolation { Field = "method.colour", Description = "was missing." },
                },
            }),
        },
    }.ToRpcException();
}

using System.Diagnostics.CodeAnalysis;
using System.Threading.Channels;

using ClearView.Records.Model;
using ClearView.Server.Mapping;
using ClearView.Server.Receiving;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Posting;

/// <summary>
/// One stream of posts. Reads, evaluates and hands over posts on one side while the other answers them in their order, so that the
/// store finds many to commit together, and a lone one is answered at once. What is recorded is let go of, and its answer alone waits
/// for a client that is slow to take it.
/// </summary>
/// <param name="poster">Takes posts.</param>
/// <param name="recordingRoom">Room for posts of all streams that are not recorded yet.</param>
/// <param name="source">Where they come from.</param>
/// <param name="requests">The posts.</param>
/// <param name="responses">Takes the answers.</param>
/// <param name="cancelled">Fires when the client has gone.</param>
/// <param name="stopping">Fires when the server stops.</param>
internal sealed class PostStream(
    ReadingPoster poster,
    RecordingRoom recordingRoom,
    PostSource source,
    IAsyncStreamReader<PostReadingsRequest> requests,
    IServerStreamWriter<PostReadingsResponse> responses,
    CancellationToken cancelled,
    CancellationToken stopping)
{
    /// <summary>Posts that are taken before they are answered.</summary>
    public const int MostUnanswered = 256;

    /// <summary>Bytes of posts that are taken before they are answered (16 MB).</summary>
    public const int MostUnansweredBytes = 16 * 1024 * 1024;

    // Answers that go out together where more are ready at once: they are small, and each flush costs a system call.
    private const int MostUnflushed = 32;

    private static readonly WriteOptions Buffered = new(WriteFlags.BufferHint);

    private readonly WriteLane _lane = new();
    private readonly PostRoom _room = new(MostUnanswered, MostUnansweredBytes);
    private readonly Channel<Taken> _taken = Channel.CreateUnbounded<Taken>(new UnboundedChannelOptions { SingleReader = true, SingleWriter = true });
    private readonly Channel<Answer> _answers = Channel.CreateUnbounded<Answer>(new UnboundedChannelOptions { SingleReader = true, SingleWriter = true });
    private int _unflushed;
    private int _unwritten;

    /// <summary>Readings that were stored.</summary>
    public long StoredCount { get; private set; }

    /// <summary>Readings that had been stored before.</summary>
    public long KnownCount { get; private set; }

    /// <summary>Posts that were refused.</summary>
    public long RefusedCount { get; private set; }

    /// <summary>Serves the stream to its end. Everything that was handed to the store is waited for, whatever ends the stream.</summary>
    /// <exception cref="RpcException">The stream ends with this status.</exception>
    /// <exception cref="StoreUnavailableException">The store cannot take readings now; everything before was answered.</exception>
    public async Task RunAsync()
    {
        using var ending = CancellationTokenSource.CreateLinkedTokenSource(cancelled, stopping);
        var reading = ReadAsync(ending.Token);
        var finishing = FinishAsync();
        try
        {
            await AnswerAsync().ConfigureAwait(false);
        }
        finally
        {
            await ending.CancelAsync().ConfigureAwait(false);
            await reading.ConfigureAwait(false);
            await finishing.ConfigureAwait(false);
        }
    }

    // Ends when the client has closed its side, or with the fault that ends the stream once everything before it is answered.
    [SuppressMessage("Design", "CA1031", Justification = "Whatever goes wrong ends the stream, after what was taken before is answered.")]
    private async Task ReadAsync(CancellationToken ending)
    {
        try
        {
            while (await TakeNextAsync(ending).ConfigureAwait(false))
            {
            }

            _taken.Writer.Complete();
        }
        catch (OperationCanceledException) when (stopping.IsCancellationRequested)
        {
            _taken.Writer.Complete(new RpcException(new Status(StatusCode.Unavailable, "The server is stopping; repeat what was not answered.")));
        }
        catch (Exception error)
        {
            _taken.Writer.Complete(error);
        }
    }

    private async Task<bool> TakeNextAsync(CancellationToken ending)
    {
        ending.ThrowIfCancellationRequested();
        try
        {
            if (!await requests.NextAsync(ending).ConfigureAwait(false))
            {
                return false;
            }
        }
        catch (MalformedMessageException malformed)
        {
            // Its bytes are let go of, but its answer waits in its place.
            await _room.EnterAsync(0, ending).ConfigureAwait(false);
            var fault = new PostFault(StatusCode.InvalidArgument, FieldFaults.Summary(1), [malformed.Violation]);
            _taken.Writer.TryWrite(new Taken(new PendingPost(new PostReadingRequest(), PostOutcome.Refused(fault), null, null), 0, IncludeReading: false, Place: null));
            return true;
        }

        var request = requests.Current;
        var post = request.Post ?? new PostReadingRequest();
        var length = post.CalculateSize();
        await _room.EnterAsync(length, ending).ConfigureAwait(false);
        var place = await recordingRoom.EnterAsync(length, ending).ConfigureAwait(false);
        try
        {
            var pending = await poster.TakeAsync(post, length, source, _lane, ending).ConfigureAwait(false);
            _taken.Writer.TryWrite(new Taken(pending, length, request.IncludeReading, place));
            return true;
        }
        catch
        {
            place.Dispose();
            throw;
        }
    }

    // Goes on to the last post that was taken, also where nobody waits for its answer any more: what is stored belongs on the charts.
    [SuppressMessage("Design", "CA1031", Justification = "Whatever goes wrong ends the stream, after what came before is answered.")]
    private async Task FinishAsync()
    {
        try
        {
            await foreach (var taken in _taken.Reader.ReadAllAsync(CancellationToken.None).ConfigureAwait(false))
            {
                try
                {
                    _answers.Writer.TryWrite(await FinishAsync(taken).ConfigureAwait(false));
                }
                catch (Exception error)
                {
                    // Not stored, and not answered, as is nothing behind it: the client repeats it.
                    _answers.Writer.TryComplete(error);
                }
            }

            _answers.Writer.TryComplete();
        }
        catch (Exception error)
        {
            _answers.Writer.TryComplete(error);
        }
    }

    private async Task<Answer> FinishAsync(Taken taken)
    {
        using var place = taken.Place;
        var outcome = await poster.FinishAsync(taken.Pending, source.Caller).ConfigureAwait(false);
        Count(outcome);

        // A reading that is to be sent along is read again when its turn comes, unless that is now.
        var isNext = Interlocked.Increment(ref _unwritten) == 1;
        var response = PostAnswers.ToResponse(taken.Pending.Request, outcome, taken.IncludeReading && isNext);
        var recalled = taken.IncludeReading && !isNext ? outcome.Stored?.Entry.Id : null;
        var mayWait = !taken.IncludeReading && _unflushed < MostUnflushed && _taken.Reader.TryPeek(out var behind) && behind.Pending.IsReady;
        _unflushed = mayWait ? _unflushed + 1 : 0;
        return new Answer(response, recalled, taken.Length, mayWait);
    }

    private async Task AnswerAsync()
    {
        await foreach (var answer in _answers.Reader.ReadAllAsync(CancellationToken.None).ConfigureAwait(false))
        {
            if (answer.Recalled is { } id)
            {
                answer.Response.Acknowledgement.Reading = await poster.RecallAsync(id, cancelled).ConfigureAwait(false);
            }

            responses.WriteOptions = answer.MayWait ? Buffered : null;
            await responses.WriteAsync(answer.Response, cancelled).ConfigureAwait(false);
            Interlocked.Decrement(ref _unwritten);
            _room.Leave(answer.Length);
        }
    }

    private void Count(PostOutcome outcome)
    {
        StoredCount += outcome is { Stored: not null, AlreadyStored: false } ? 1 : 0;
        KnownCount += outcome.AlreadyStored ? 1 : 0;
        RefusedCount += outcome.Fault is null ? 0 : 1;
    }

    private readonly record struct Taken(PendingPost Pending, int Length, bool IncludeReading, IDisposable? Place);

    private readonly record struct Answer(PostReadingsResponse Response, Guid? Recalled, int Length, bool MayWait);
}

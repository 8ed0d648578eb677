using System.CommandLine;

using ClearView.Client;
using ClearView.Client.Files;
using ClearView.Client.Outbox;
using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.V1;

using Google.Protobuf;

namespace ClearView.Console.Commands.Outboxes;

/// <summary>Posting all shift: from a folder or the standard input, through an outbox, until it is stopped.</summary>
internal sealed class LinePosting
{
    private static readonly TimeSpan Poll = TimeSpan.FromMilliseconds(250);
    private static readonly TimeSpan FullPause = TimeSpan.FromSeconds(2);

    private readonly Option<string?> _follow = new("--follow") { HelpName = "FOLDER", Description = "Post each new scan file of this folder when it has stopped growing, until stopped." };
    private readonly Option<bool> _stdin = new("--stdin") { Description = "Post readings from the standard input, one PostReadingRequest as JSON on each line." };
    private readonly Option<string?> _done = new("--done") { HelpName = "FOLDER", Description = "Move each followed file here when its readings are in the outbox. Without it files stay." };
    private readonly CheckedOption<double[]> _settle = NumberOptions.Positive("--settle", "How long a followed file must not change, s. [default: 2]");
    private readonly OutboxOption _outbox = new();

    /// <summary>Adds the options to a command.</summary>
    public void AddTo(DocumentedCommand command)
    {
        command.BeginGroup("All shift, through an outbox (docs/operating.md)", _follow);
        command.Add(_follow);
        command.Add(_stdin);
        command.Add(_done);
        command.Add(_settle.Option);
        _outbox.AddTo(command);
        _outbox.AddLimitsTo(command);
        command.Validators.Add(result =>
        {
            var line = (result.GetValue(_follow) is not null ? 1 : 0) + (result.GetValue(_stdin) ? 1 : 0);
            var paths = result.Children.OfType<System.CommandLine.Parsing.ArgumentResult>().Sum(one => one.Tokens.Count);
            if (line > 1)
            {
                result.AddError("give --follow or --stdin, not both");
            }
            else if (line == 1 && paths > 0)
            {
                result.AddError("give files, or --follow or --stdin, not both");
            }
            else if (line == 0 && paths == 0)
            {
                result.AddError("Required argument missing for command: 'post'.");
            }
            else if (result.GetValue(_done) is not null && result.GetValue(_follow) is null)
            {
                result.AddError("--done goes with --follow");
            }
        });
    }

    /// <summary>Whether this is what was asked for.</summary>
    public bool IsGiven(ParseResult parsed) => parsed.GetValue(_follow) is not null || parsed.GetValue(_stdin);

    /// <summary>Refuses options that say nothing about a post of files.</summary>
    /// <exception cref="UsageException">One of them was given.</exception>
    public void RefuseOptionsOfFollowing(ParseResult parsed)
    {
        if (_outbox.AnyIsGiven(parsed) || _settle.Resolve(parsed) is not null)
        {
            throw new UsageException("--outbox, --outbox-limit, --least-free and --settle go with --follow or --stdin; files are posted without an outbox");
        }
    }

    /// <summary>Posts until stopped, or until the input has ended and everything is stored.</summary>
    /// <param name="screen">Shows what happens.</param>
    /// <param name="parsed">The command line.</param>
    /// <param name="client">Calls the server.</param>
    /// <param name="scans">What scan files do not say.</param>
    /// <param name="request">Makes the request of a measurement; asked once, before the first file.</param>
    /// <param name="cancellation">Stops.</param>
    public async Task<int> RunAsync(
        OutboxScreen screen, ParseResult parsed, ClearViewClient client, ScanFileOptions scans,
        Func<Task<Func<Measurement, PostReadingRequest>>> request, CancellationToken cancellation)
    {
        RefuseDoneAmongFollowed(parsed);
        var limits = _outbox.Limits(parsed);
        var folder = _outbox.Folder(parsed);
        using var outbox = ReadingOutbox.Open(folder, limits, screen.Write);
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        var reading = parsed.GetValue(_follow) is { } follow
            ? FollowAsync(follow)
            : ReadLinesAsync();
        var sending = new OutboxPump(outbox, new StreamReadingSender(client, screen.NeedsReadings), limits).RunAsync(reading, stop.Token);
        try
        {
            await await Task.WhenAny(reading, sending);
            await sending;
        }
        catch (OperationCanceledException) when (cancellation.IsCancellationRequested)
        {
            // The usual end of a shift: what waits is on the disk.
        }
        finally
        {
            await stop.CancelAsync();
            await sending.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
        return screen.ExitCode;

        async Task FollowAsync(string path)
        {
            if (!Directory.Exists(path))
            {
                throw new UsageException($"there is no folder {path} to follow");
            }
            var make = await request();
            var settle = TimeSpan.FromSeconds(_settle.Resolve(parsed) is [var s] ? s : 2);
            var follower = new FolderFollower(
                new FollowedFolder(path, settle, TimeProvider.System), new TakenFiles(folder), parsed.GetValue(_done),
                file => [.. ScanFileReader.Read(file, scans).Select(specimen => make(specimen.Measurement))], AcceptAsync, screen);
            while (true)
            {
                await follower.PollAsync();
                await Task.Delay(Poll, stop.Token);
            }
        }

        async Task ReadLinesAsync()
        {
            var number = 0;
            using var input = new StreamReader(System.Console.OpenStandardInput());
            // A pipe that stays open is not to hold up the end.
            while (await Task.Run(() => input.ReadLine(), CancellationToken.None).WaitAsync(stop.Token) is { } text)
            {
                number++;
                if (string.IsNullOrWhiteSpace(text))
                {
                    continue;
                }
                try
                {
                    var post = PostReadingRequest.Parser.ParseJson(text);
                    if (!Guid.TryParseExact(post.ReadingId, "D", out _))
                    {
                        throw new FormatException("readingId is no UUID; the poster chooses it, so that a repeat is harmless");
                    }
                    await AcceptAsync([post]);
                }
                catch (Exception e) when (e is InvalidProtocolBufferException or InvalidJsonException or FormatException)
                {
                    screen.Fault($"standard input, line {NumberText.Plain(number)}: {e.Message}; the line was not taken");
                }
            }
        }

        // Waits while there is no room: the file stays where it is, the pipe holds its next line.
        async Task AcceptAsync(IReadOnlyList<PostReadingRequest> requests)
        {
            for (var told = false; ; told = true)
            {
                try
                {
                    outbox.Accept(requests);
                    return;
                }
                catch (OutboxException e) when (e.IsFull)
                {
                    if (!told)
                    {
                        screen.Trouble(e.Message);
                    }
                    await Task.Delay(FullPause, stop.Token);
                }
            }
        }
    }

    private void RefuseDoneAmongFollowed(ParseResult parsed)
    {
        if (parsed.GetValue(_follow) is { } follow && parsed.GetValue(_done) is { } done && NestedFolders.IsAtOrBelow(done, follow))
        {
            throw new UsageException(
                $"the folder of --done, {done}, is that of --follow, {follow}, or below it, where moved files would be found again; give a folder outside of it, for example one beside it");
        }
    }
}

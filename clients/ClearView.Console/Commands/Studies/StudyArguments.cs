using System.CommandLine;

using ClearView.Client;
using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Plotting.Model;
using ClearView.V1;

using ValueTable = ClearView.Client.Files.ValueTable;

namespace ClearView.Console.Commands.Studies;

/// <summary>What every study is told: readings that a server keeps, or a file of one's own; and where the answer goes.</summary>
internal sealed class StudyArguments
{
    private readonly OwnValues _own = new();
    private readonly ServerOption _server = new($"The server that holds the readings. [default: {ServerOption.Variable} if it is set, else {ServerAddresses.Default}] "
        + "A file of your own is worked on here unless a server is named.");

    private readonly JsonOption _json = new();
    private readonly ChartFileOption _chart = new();

    /// <summary>Which readings.</summary>
    public OriginOptions Origin { get; } = new();

    /// <summary>Adds the file, and whatever stands before the options on the output.</summary>
    public void AddFileTo(DocumentedCommand command) => _own.AddFileTo(command);

    /// <summary>Adds the options on readings.</summary>
    /// <param name="command">The command.</param>
    /// <param name="wholeLots">Whether lots are chosen otherwise, and all their rolls and instruments count.</param>
    public void AddOriginTo(DocumentedCommand command, bool wholeLots = false) =>
        command.BeginGroup("Readings", Origin.AddTo(command, withLot: !wholeLots, withInstrument: !wholeLots));

    /// <summary>Adds the options on file, output and server.</summary>
    public void AddOutputTo(DocumentedCommand command)
    {
        command.BeginGroup("A file of your own", _own.AddOptionsTo(command));
        command.BeginGroup("Server and output", _server.AddTo(command));
        _json.AddTo(command);
        _chart.AddTo(command);
    }

    /// <summary>The rows of the file that are chosen; <see langword="null"/> where no file was named.</summary>
    public ValueTable? Read(Screen screen, ParseResult parsed) => _own.Read(screen, parsed) is { } table ? Origin.Choose(parsed, table) : null;

    /// <summary>The readings of one measurand: those of the file, or the stored ones.</summary>
    public (GivenSeries? Given, StoredSeries? Stored) Series(Screen screen, ParseResult parsed, string measurand) => Read(screen, parsed) is { } table
        ? (table.ToSeries(measurand), null)
        : (null, new StoredSeries { Filter = Origin.Filter(parsed, measurand), Span = Origin.Span(parsed) });

    /// <summary>Refuses the limits of a stored specification where no server is asked.</summary>
    /// <exception cref="UsageException">There is no server to ask.</exception>
    public static void RequireServerFor(SpecificationName? specification, ClearViewClient? client)
    {
        if (client is null && specification is not null)
        {
            throw new UsageException("--specification names limits that a server keeps; add --server ADDRESS, or give --lower and --upper");
        }
    }

    /// <summary>A client of the server; <see langword="null"/> where a file is worked on here.</summary>
    public ClearViewClient? Connect(ParseResult parsed) => _own.AreGiven(parsed) && !_server.IsGiven(parsed) ? null : _server.Connect(parsed);

    /// <summary>Whether JSON was asked for.</summary>
    public bool WantsJson(ParseResult parsed) => _json.IsGiven(parsed);

    /// <summary>Draws the answer where a picture was asked for.</summary>
    public void Draw(Screen screen, ParseResult parsed, params ReadOnlySpan<(string Suffix, Func<ChartModel> Build)> charts) => _chart.Write(screen, parsed, charts);
}

using System.Collections.Immutable;
using System.CommandLine;

using ClearView.Client;
using ClearView.Client.Files;
using ClearView.Console.Judging;
using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.V1;

namespace ClearView.Console.Commands;

/// <summary>What every command on scan files is told: the files, the method, the limits, and what the files do not say.</summary>
internal sealed class SpecimenArguments
{
    private readonly Argument<string[]> _paths = new("path") { Arity = ArgumentArity.OneOrMore, Description = "Scan files, or folders with scan files (docs/files.md)." };
    private readonly MethodOptions _method = new();
    private readonly LimitOption _limits = new();
    private readonly ScanOptions _scans = new();
    private readonly ServerOption _server;
    private readonly JsonOption _json = new();
    private readonly bool _serverIsOptional;

    /// <summary>Creates the arguments.</summary>
    /// <param name="serverIsOptional">Whether the command also works without a server.</param>
    public SpecimenArguments(bool serverIsOptional)
    {
        _serverIsOptional = serverIsOptional;
        _server = new ServerOption(serverIsOptional);
    }

    /// <summary>The specification that readings are judged under; <see langword="null"/> where the command knows none.</summary>
    public CheckedOption<SpecificationName>? Specification { get; init; }

    /// <summary>Whether the command may be given no path, and then finds out by itself what to do.</summary>
    public bool PathsAreOptional { get; init; }

    /// <summary>Adds them to a command.</summary>
    /// <param name="command">The command.</param>
    /// <param name="own">Options of its own, which stand first among those on the output.</param>
    public void AddTo(DocumentedCommand command, params Option[] own)
    {
        if (PathsAreOptional)
        {
            _paths.Arity = ArgumentArity.ZeroOrMore;
        }
        command.Add(_paths);
        _method.AddTo(command);
        if (Specification is { } specification)
        {
            command.BeginGroup("Limits and output", specification.Option);
            command.Add(specification.Option);
            _limits.AddTo(command);
        }
        else
        {
            command.BeginGroup("Limits and output", _limits.AddTo(command));
        }
        foreach (var option in own)
        {
            command.Add(option);
        }
        _json.AddTo(command);
        _server.AddTo(command);
        command.BeginGroup("Scan files", _scans.AddTo(command));
    }

    /// <summary>Whether JSON was asked for.</summary>
    public bool WantsJson(ParseResult parsed) => _json.IsGiven(parsed);

    /// <summary>A client of the server; <see langword="null"/> where the command works without one and none was named.</summary>
    public ClearViewClient? Connect(ParseResult parsed) => _serverIsOptional && !_server.IsGiven(parsed) ? null : _server.Connect(parsed);

    /// <summary>What scan files do not say.</summary>
    public ScanFileOptions Scans(ParseResult parsed) => _scans.Resolve(parsed);

    /// <summary>The limits that specimens are to keep.</summary>
    public ImmutableArray<Limit> Limits(ParseResult parsed) => _limits.Resolve(parsed);

    /// <summary>The method that the command line states or names.</summary>
    public Task<ChosenMethod> ResolveMethodAsync(ParseResult parsed, ClearViewClient client, CancellationToken cancellation) =>
        _method.ResolveAsync(parsed, name => client.GetMethodAsync(name, cancellation));

    /// <summary>Reads everything that the command line names.</summary>
    /// <param name="screen">Takes what is at fault.</param>
    /// <param name="parsed">The command line.</param>
    /// <param name="client">Finds a method that the server keeps; <see langword="null"/> where no server is asked.</param>
    /// <param name="cancellation">Gives it up.</param>
    public async Task<(ChosenMethod Method, ImmutableArray<Limit> Limits, ScanInput Input)> ResolveAsync(
        Screen screen, ParseResult parsed, ClearViewClient? client, CancellationToken cancellation)
    {
        Func<MethodName, Task<NamedMethod>>? find = client is null ? null : name => client.GetMethodAsync(name, cancellation);
        var method = Specification?.Resolve(parsed) is { } specification
            ? await MethodOfAsync(specification, parsed, client!, find!, cancellation)
            : await _method.ResolveAsync(parsed, find);
        return (method, _limits.Resolve(parsed), ScanInput.Read(screen, parsed.GetRequiredValue(_paths), _scans.Resolve(parsed)));
    }

    private async Task<ChosenMethod> MethodOfAsync(
        SpecificationName specification, ParseResult parsed, ClearViewClient client, Func<MethodName, Task<NamedMethod>> find, CancellationToken cancellation)
    {
        if (_method.AnyIsGiven(parsed))
        {
            throw new UsageException("the specification brings its method; leave --method and the options that state one out");
        }
        var found = await client.GetSpecificationAsync(specification, cancellation);
        var method = await MethodOptions.FindAsync(found.Specification.MethodName, find);
        return new ChosenMethod(method.Method, method);
    }
}

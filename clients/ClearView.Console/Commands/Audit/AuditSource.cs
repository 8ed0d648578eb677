using System.CommandLine;

using ClearView.Console.Commands.Records;
using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Server.Mapping;
using ClearView.V1;

namespace ClearView.Console.Commands.Audit;

/// <summary>Where the chains are: behind a server, or in a store that is opened here.</summary>
internal sealed class AuditSource
{
    private readonly ServerOption _server = new(isOptional: false);
    private readonly StoreOption _store = new(
        "Read this store itself, without a server: a file, or postgres://USER@HOST:PORT/DATABASE. It stays as it is.", isRequired: false);

    /// <summary>Adds the options to a command.</summary>
    public void AddTo(Command command)
    {
        _server.AddTo(command);
        _store.AddTo(command);
    }

    /// <summary>Verifies.</summary>
    public Task<int> VerifyAsync(
        Screen screen,
        ParseResult parsed,
        IReadOnlyList<ClearView.Records.Audit.ChainHead> noted,
        Func<VerificationSummary, int> show,
        CancellationToken cancellation) =>
        RunAsync(
            screen,
            parsed,
            async client => show(await client.VerifyChainAsync(noted.Select(AuditMapper.ToHead), cancellationToken: cancellation)),
            async audit => show(AuditMapper.ToSummary(await audit.VerifyAsync(noted, progress: null, cancellation))),
            cancellation);

    /// <summary>Gives the heads.</summary>
    public Task<int> HeadsAsync(Screen screen, ParseResult parsed, Func<IReadOnlyList<ChainHead>, int> show, CancellationToken cancellation) =>
        RunAsync(
            screen,
            parsed,
            async client => show(await client.ListHeadsAsync(cancellation)),
            async audit => show([.. (await audit.HeadsAsync(cancellation)).Select(AuditMapper.ToHead)]),
            cancellation);

    private async Task<int> RunAsync(
        Screen screen,
        ParseResult parsed,
        Func<Client.ClearViewClient, Task<int>> ofServer,
        Func<ClearView.Records.Audit.IAuditStore, Task<int>> ofStore,
        CancellationToken cancellation)
    {
        if (_store.Find(parsed) is not { } name)
        {
            await using var client = _server.Connect(parsed);
            return await ofServer(client);
        }
        if (_server.IsGiven(parsed))
        {
            throw new UsageException("name a server or a store, not both");
        }
        return await StoreOpening.RunAsync(screen, async () =>
        {
            await using var store = await StoreName.OpenAuditedAsync(name, _store.PasswordFile(parsed), cancellation);
            return await ofStore(store.Audit);
        });
    }
}

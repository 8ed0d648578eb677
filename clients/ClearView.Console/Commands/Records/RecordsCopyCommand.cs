using System.CommandLine;
using System.Globalization;

using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Records.Exchange;

namespace ClearView.Console.Commands.Records;

/// <summary>Copies a store into an empty one, of the same engine or the other.</summary>
internal sealed class RecordsCopyCommand : DocumentedCommand
{
    private readonly Argument<string> _from = new("FROM") { Description = "The source: a file, or postgres://USER@HOST:PORT/DATABASE." };
    private readonly Argument<string> _to = new("TO") { Description = "The target, named alike; it must be empty." };
    private readonly PasswordFileOption _passwordFile = new();

    /// <summary>Creates the command.</summary>
    public RecordsCopyCommand(Screen screen)
        : base("copy", "Copy everything of a store into an empty one, and compare every row afterwards.",
        [
            "clearview records copy line3.db postgres://clearview@db.plant/line3",
            "clearview records copy postgres://clearview@db.plant/line3 copy.db",
        ])
    {
        Add(_from);
        Add(_to);
        _passwordFile.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => CopyAsync(
            screen, parsed.GetRequiredValue(_from), parsed.GetRequiredValue(_to), _passwordFile.Resolve(parsed), cancellation)));
    }

    private static Task<int> CopyAsync(Screen screen, string from, string to, string? passwordFile, CancellationToken cancellation) =>
        StoreOpening.RunAsync(screen, async () =>
        {
            StoreOpening.RequireExisting(from);
            await using var source = await StoreName.OpenAsync(from, passwordFile, TimeProvider.System, cancellation);
            await using var target = await StoreName.OpenAsync(to, passwordFile, TimeProvider.System, cancellation);
            var copied = await StoreCopy.RunAsync(source, target, cancellation);
            await screen.Output.WriteLineAsync(string.Create(
                CultureInfo.InvariantCulture,
                $"Copied and compared: {copied.Readings} readings, {copied.Values} values of series, {copied.Documents} versions of documents, {copied.Links} links."));
            await screen.Output.WriteLineAsync("SHA-256 of the rows on both sides: " + copied.Sha256);
            return ExitCode.Ok;
        });
}

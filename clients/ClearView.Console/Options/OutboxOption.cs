using System.CommandLine;

using ClearView.Client.Outbox;

namespace ClearView.Console.Options;

/// <summary>The options that name an outbox and limit it.</summary>
internal sealed class OutboxOption
{
    private readonly Option<string?> _folder = new("--outbox")
    {
        HelpName = "FOLDER",
        Description = "Folder of the outbox, one per poster, on a local disk. [default: clearview/outbox in the user's data folder]",
    };

    private readonly CheckedOption<double[]> _limitMb = NumberOptions.Count("--outbox-limit", "What the outbox may hold, MB. [default: 2000]", 1, 1_000_000);

    private readonly CheckedOption<double[]> _leastFreeMb = NumberOptions.Count("--least-free", "What has to stay free on its disk, MB. [default: 256]", 0, 1_000_000);

    /// <summary>Adds the folder to a command.</summary>
    public Option AddTo(Command command)
    {
        command.Add(_folder);
        return _folder;
    }

    /// <summary>Adds the limits to a command.</summary>
    public void AddLimitsTo(Command command)
    {
        command.Add(_limitMb.Option);
        command.Add(_leastFreeMb.Option);
    }

    /// <summary>Whether any of them was given.</summary>
    public bool AnyIsGiven(ParseResult parsed) =>
        parsed.GetValue(_folder) is not null || _limitMb.Resolve(parsed) is not null || _leastFreeMb.Resolve(parsed) is not null;

    /// <summary>The folder.</summary>
    public string Folder(ParseResult parsed) => parsed.GetValue(_folder)
        ?? Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify), "clearview", "outbox");

    /// <summary>The limits.</summary>
    public OutboxOptions Limits(ParseResult parsed)
    {
        const long BytesPerMb = 1_000_000;
        var usual = new OutboxOptions();
        return usual with
        {
            LimitBytes = _limitMb.Resolve(parsed) is [var limit] ? (long)limit * BytesPerMb : usual.LimitBytes,
            LeastFreeBytes = _leastFreeMb.Resolve(parsed) is [var free] ? (long)free * BytesPerMb : usual.LeastFreeBytes,
        };
    }
}

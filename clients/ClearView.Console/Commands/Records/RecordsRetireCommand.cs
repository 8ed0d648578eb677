using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;

using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Records.Postgres;
using ClearView.Records.Retention;

namespace ClearView.Console.Commands.Records;

/// <summary>Exports months of a database, and takes them out of it.</summary>
internal sealed class RecordsRetireCommand : DocumentedCommand
{
    private readonly StoreOption _store = new("The database, postgres://USER@HOST:PORT/DATABASE. Servers may go on using it.", isRequired: true);

    private readonly Option<string> _before = new("--before")
    {
        HelpName = "MONTH",
        Description = "The first month of measurement (UTC) that stays, for example 2025-01.",
        Required = true,
    };

    private readonly Option<string> _out = new("--out")
    {
        HelpName = "FOLDER",
        Description = "Folder for the exports, one store file per month.",
        Required = true,
    };

    private readonly Option<string?> _person = new("--person")
    {
        HelpName = "NAME",
        Description = "Who retires them, for the record. [default: name of the user]",
    };

    private readonly JsonOption _json = new();

    /// <summary>Creates the command.</summary>
    public RecordsRetireCommand(Screen screen)
        : base("retire", "Export every month before another one, compare each row, then take the months out of the tables.",
        [
            "clearview records retire --store postgres://clearview@db.plant/line3 --before 2025-01 --out old",
            "clearview records retire --store postgres://db.plant/line3 --before 2025-01 --out old --json",
        ])
    {
        _store.AddTo(this);
        Add(_before);
        Add(_out);
        Add(_person);
        _json.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(
            screen, () => StoreOpening.RunAsync(screen, () => RetireAsync(screen, parsed, cancellation))));
    }

    private async Task<int> RetireAsync(Screen screen, ParseResult parsed, CancellationToken cancellation)
    {
        var name = _store.Resolve(parsed);
        var folder = parsed.GetRequiredValue(_out);
        var before = parsed.GetRequiredValue(_before);
        var person = parsed.GetValue(_person) ?? Environment.UserName;
        if (!PostgresConnectionString.IsOne(name))
        {
            throw new UsageException($"--store was {name}; months are retired from a database only, postgres://USER@HOST:PORT/DATABASE.");
        }
        if (!MonthSpan.TryParse(before, out var month))
        {
            throw new UsageException($"--before was {before}; expected a month, for example 2025-01.");
        }
        if (!Directory.Exists(folder))
        {
            throw new UsageException($"{folder} does not exist.");
        }
        if (string.IsNullOrWhiteSpace(person))
        {
            throw new UsageException("--person was empty.");
        }

        await using var store = await PostgresStore.OpenAsync(
            PostgresConnectionString.Parse(name, _store.PasswordFile(parsed)), TimeProvider.System, cancellation);
        List<RetiredMonth> retired = [];
        await foreach (var one in MonthRetirement.RunAsync(store, month, folder, person, TimeProvider.System, cancellation))
        {
            retired.Add(one);
            if (!_json.IsGiven(parsed))
            {
                Show(screen, one);
            }
        }

        if (_json.IsGiven(parsed))
        {
            JsonText.Write(screen, new JsonObject { ["retired"] = new JsonArray([.. retired.Select(one => (JsonNode)Json(one))]) });
        }
        else if (retired.Count == 0)
        {
            screen.Line($"No readings before {month}; nothing was retired.");
        }

        return ExitCode.Ok;
    }

    private static void Show(Screen screen, RetiredMonth retired)
    {
        screen.Line(string.Create(
            CultureInfo.InvariantCulture,
            $"{retired.Month}: {retired.Readings} readings, {retired.Values} values of series exported to {retired.ExportFile}, compared, and retired."));
        screen.Line("         SHA-256 of the rows: " + retired.Sha256);
    }

    private static JsonObject Json(RetiredMonth retired) => new()
    {
        ["month"] = retired.Month,
        ["part"] = retired.Part,
        ["readings"] = retired.Readings,
        ["values"] = retired.Values,
        ["sha256"] = retired.Sha256,
        ["exportFile"] = retired.ExportFile,
        ["retiredAt"] = retired.RetiredAt.ToString("O", CultureInfo.InvariantCulture),
        ["retiredBy"] = retired.RetiredBy,
    };
}

using System.CommandLine;
using System.Globalization;

using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Contract.Methods;
using ClearView.V1;

using Spectre.Console;

namespace ClearView.Console.Commands;

/// <summary>Lists what a method or a limit may name.</summary>
internal sealed class CatalogueCommand : DocumentedCommand
{
    private static readonly string[] Parts = ["illuminants", "bands", "resins", "measurands"];

    private readonly Argument<string?> _part = new("part") { Arity = ArgumentArity.ZeroOrOne, Description = $"Only one part: {string.Join(", ", Parts)}." };
    private readonly ServerOption _server = new("Ask this server, for example 127.0.0.1:5180. Without it, what is built in here.");
    private readonly JsonOption _json = new();
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public CatalogueCommand(Screen screen)
        : base("catalogue", "List illuminants, bands, resins and measurands that a method or a limit may name.",
        [
            "clearview catalogue measurands",
            "clearview catalogue resins --json",
        ])
    {
        _screen = screen;
        _part.Validators.Add(result =>
        {
            if (result.GetValueOrDefault<string?>() is { } given && !Parts.Contains(given))
            {
                result.AddError($"catalogue: there are {string.Join(", ", Parts)}; \"{given}\" was given");
            }
        });
        Add(_part);
        _server.AddTo(this);
        _json.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var catalogue = await FindAsync(parsed, cancellation);
        var part = parsed.GetValue(_part);
        if (_json.IsGiven(parsed))
        {
            var node = JsonText.OfMessage(catalogue)!.AsObject();
            foreach (var other in Parts.Where(other => part is not null && other != part))
            {
                node.Remove(other);
            }
            JsonText.Write(_screen, node);
            return ExitCode.Ok;
        }
        foreach (var shown in Parts.Where(one => part is null || one == part))
        {
            if (part is null && shown != Parts[0])
            {
                _screen.Line();
            }
            Write(catalogue, shown);
        }
        return ExitCode.Ok;
    }

    private async Task<GetCatalogueResponse> FindAsync(ParseResult parsed, CancellationToken cancellation)
    {
        if (!_server.IsGiven(parsed))
        {
            return Catalogue.Build();
        }
        await using var client = _server.Connect(parsed);
        return await client.GetCatalogueAsync(cancellation);
    }

    private void Write(GetCatalogueResponse catalogue, string part)
    {
        switch (part)
        {
            case "illuminants":
                _screen.Line($"[bold]Illuminants[/], and daylight-5200K (4000-25000 K), planckian-3000K (1000-25000 K), --lamp FILE; {Markup.Escape(catalogue.CieDataVersion)}");
                WriteTable(
                    ["Name", "Description", "White, 2°: X", "Z", "10°: X", "Z"],
                    2,
                    catalogue.Illuminants.Select(one => new[] { one.Name, one.Description, White(one, Observer.Cie19312Deg, false), White(one, Observer.Cie19312Deg, true), White(one, Observer.Cie196410Deg, false), White(one, Observer.Cie196410Deg, true) }));
                return;
            case "bands":
                _screen.Line("[bold]Bands[/], beside those of --band");
                WriteTable(["Band", "Name", "From, nm", "To, nm"], 2, catalogue.Bands.Select(one => new[] { one.Band, one.Name, NumberText.Plain(one.FromNm), NumberText.Plain(one.ToNm) }));
                return;
            case "resins":
                _screen.Line("[bold]Resins[/], for --resin; n at 589.3 nm");
                WriteTable(["Resin", "Name", "n", "Source"], int.MaxValue, catalogue.Resins.Select(one => new[] { one.Resin, one.Name, one.RefractiveIndex.ToString("F4", CultureInfo.InvariantCulture), one.Source }));
                return;
            default:
                _screen.Line("[bold]Measurands[/], for --limit");
                WriteTable(["Measurand", "Name", "Sym.", "Unit", "Needs"], int.MaxValue, catalogue.Measurands.Select(one => new[] { one.Measurand, one.Name, one.Symbol, one.Unit, one.Needs }));
                return;
        }
    }

    private static string White(IlluminantInfo illuminant, Observer observer, bool ofZ) =>
        illuminant.WhitePoints.FirstOrDefault(point => point.Observer == observer) is { } white
            ? (ofZ ? white.TristimulusZ : white.TristimulusX).ToString("F2", CultureInfo.InvariantCulture)
            : "-";

    private void WriteTable(IReadOnlyList<string> headings, int firstNumber, IEnumerable<string[]> rows)
    {
        var table = new Table().Border(TableBorder.Simple).Collapse();
        for (var i = 0; i < headings.Count; i++)
        {
            var column = new TableColumn(Markup.Escape(headings[i])).PadLeft(0).PadRight(i == headings.Count - 1 ? 0 : 1);
            table.AddColumn(i >= firstNumber ? column.NoWrap().RightAligned() : i == 0 ? column.NoWrap() : column);
        }
        foreach (var row in rows)
        {
            table.AddRow([.. row.Select(Markup.Escape)]);
        }
        _screen.Write(table);
    }
}

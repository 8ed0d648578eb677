using System.CommandLine;

using ClearView.Client.Files;
using ClearView.V1;

namespace ClearView.Console.Options;

/// <summary>The options that choose readings by where they come from, and when: those that a server keeps, or rows of a file.</summary>
internal sealed class OriginOptions
{
    private readonly Option<string> _line = new("--line") { HelpName = "TEXT", Description = "Only this production line, exactly." };
    private readonly Option<string> _product = new("--product") { HelpName = "TEXT", Description = "Only this product, exactly." };
    private readonly Option<string> _lot = new("--lot") { HelpName = "TEXT", Description = "Only this lot, exactly." };
    private readonly Option<string> _roll = new("--roll") { HelpName = "TEXT", Description = "Only this roll, exactly." };
    private readonly Option<string> _instrument = new("--instrument") { HelpName = "TEXT", Description = "Only this instrument, exactly." };
    private readonly TimeOption _from = new("--from", "Measured at this time or later:");
    private readonly TimeOption _before = new("--before", "Measured before this time:");

    /// <summary>Adds the options to a command.</summary>
    /// <param name="command">The command.</param>
    /// <param name="withLot">Whether a single lot may be chosen.</param>
    /// <param name="withInstrument">Whether an instrument may be chosen.</param>
    /// <returns>The first of them.</returns>
    public Option AddTo(Command command, bool withLot = true, bool withInstrument = true)
    {
        command.Add(_line);
        command.Add(_product);
        if (withLot)
        {
            command.Add(_lot);
            command.Add(_roll);
        }
        if (withInstrument)
        {
            command.Add(_instrument);
        }
        _from.AddTo(command);
        _before.AddTo(command);
        return _line;
    }

    /// <summary>The production line; empty where none was given.</summary>
    public string Line(ParseResult parsed) => parsed.GetValue(_line) ?? "";

    /// <summary>The product; empty where none was given.</summary>
    public string Product(ParseResult parsed) => parsed.GetValue(_product) ?? "";

    /// <summary>The lot; empty where none was given.</summary>
    public string Lot(ParseResult parsed) => parsed.GetValue(_lot) ?? "";

    /// <summary>The roll; empty where none was given.</summary>
    public string Roll(ParseResult parsed) => parsed.GetValue(_roll) ?? "";

    /// <summary>The readings that make a series.</summary>
    public SeriesFilter Filter(ParseResult parsed, string measurand) => new()
    {
        Measurand = measurand,
        Line = Line(parsed),
        Product = Product(parsed),
        Lot = Lot(parsed),
        Roll = Roll(parsed),
        Instrument = parsed.GetValue(_instrument) ?? "",
    };

    /// <summary>The stretch of time; <see langword="null"/> where neither end was given.</summary>
    public MeasuredSpan? Span(ParseResult parsed)
    {
        var (from, before) = (_from.Resolve(parsed), _before.Resolve(parsed));
        return from is null && before is null ? null : new MeasuredSpan { MeasuredFrom = from, MeasuredBefore = before };
    }

    /// <summary>The rows of a table that are chosen. A row that does not name its line, or its time, is of none.</summary>
    /// <exception cref="ScanFileException">No row is chosen.</exception>
    public ValueTable Choose(ParseResult parsed, ValueTable table)
    {
        var filter = Filter(parsed, "");
        var span = Span(parsed);
        var rows = table.Rows
            .Where(row => Matches(filter.Line, row.Line) && Matches(filter.Product, row.Product) && Matches(filter.Lot, row.Lot)
                && Matches(filter.Roll, row.Roll) && Matches(filter.Instrument, row.Instrument)
                && (span?.MeasuredFrom is not { } from || row.MeasuredAt?.CompareTo(from) >= 0)
                && (span?.MeasuredBefore is not { } before || row.MeasuredAt?.CompareTo(before) < 0))
            .ToList();
        return rows.Count > 0
            ? table with { Rows = [.. rows] }
            : throw new ScanFileException(table.FilePath, null, null, "no row matches what was chosen", "rows of the chosen line, product, lot, roll, instrument and time");

        static bool Matches(string wanted, string has) => wanted.Length == 0 || wanted == has;
    }
}

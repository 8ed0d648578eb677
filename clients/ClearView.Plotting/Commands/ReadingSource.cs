using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using ClearView.Client;
using ClearView.Client.Files;
using ClearView.Contract;
using ClearView.Contract.Methods;
using ClearView.Plotting.Charts;
using ClearView.V1;
using Timestamp = Google.Protobuf.WellKnownTypes.Timestamp;

namespace ClearView.Plotting.Commands;

/// <summary>The arguments and options that say which readings a chart shows, and how to get them.</summary>
/// <param name="clock">The clock that bounds the times of measurement in files.</param>
/// <param name="method">The options that say which method evaluates files.</param>
/// <param name="needsSpectra">Whether stored readings are asked for with their spectra.</param>
internal sealed class ReadingSource(TimeProvider clock, IMethodChoice method, bool needsSpectra)
{
    private const string ServerVariable = "CLEARVIEW_SERVER";
    private const int DefaultCount = 1000;
    private const int MostCount = 20_000;
    private const int PageSize = 500;
    private const int PageSizeWithSpectra = 100;

    private readonly Argument<string[]> _paths = new("path")
    {
        Arity = ArgumentArity.ZeroOrMore,
        Description = "Scan files or folders with scan files, evaluated here. Without any, stored readings are asked for.",
    };

    private readonly Option<string[]> _set = new("--set")
    {
        HelpName = "KEY=VALUE",
        AllowMultipleArgumentsPerToken = false,
        Description = $"A value where a file gives none; repeatable. Keys: {string.Join(", ", ScanFileKeys.All)}.",
    };

    private readonly Option<string?> _unit = new("--unit") { HelpName = "UNIT", Description = "Scale of transmittance columns whose header gives none: percent or fraction." };

    private readonly Option<string?> _server = new("--server", "-s")
    {
        HelpName = "ADDRESS",
        Description = $"Server of the stored readings. [default: {ServerVariable} if it is set, else {ServerAddresses.Default}]",
    };

    private readonly CredentialOptions _credentials = new();
    private readonly Option<Guid[]> _ids = new("--id") { HelpName = "UUID", Description = "Only this stored reading; repeatable." };
    private readonly Option<string> _line = Filter("--line", "production line");
    private readonly Option<string> _product = Filter("--product", "product");
    private readonly Option<string> _lot = Filter("--lot", "lot");
    private readonly Option<string> _roll = Filter("--roll", "roll");
    private readonly Option<string> _specimen = Filter("--specimen", "specimen");
    private readonly Option<DateTimeOffset?> _from = Time("--from", "Measured at this time or later, for example 2026-03-02T06:00:00Z.");
    private readonly Option<DateTimeOffset?> _before = Time("--before", "Measured before this time.");

    private readonly Option<int> _count = new("--count", "-n")
    {
        HelpName = "NUMBER",
        DefaultValueFactory = _ => DefaultCount,
        Description = "Stored readings to take at most, the newest.",
    };

    /// <summary>Adds arguments and options to a command.</summary>
    public void AddTo(Command command)
    {
        _unit.AcceptOnlyFromAmong("percent", "fraction");
        _count.Validators.Add(result =>
        {
            if (result.GetValueOrDefault<int>() is < 1 or > MostCount)
            {
                result.AddError($"--count: write a number from 1 to {MostCount}");
            }
        });
        _set.Validators.Add(result =>
        {
            foreach (string text in result.Tokens.Select(token => token.Value).Where(text => Split(text) is null))
            {
                result.AddError($"--set: write KEY=VALUE with one of {string.Join(", ", ScanFileKeys.All)}; \"{text}\" was given");
            }
        });
        command.Add(_paths);
        method.AddTo(command);
        foreach (Option option in (Option[])[_set, _unit, _server, .. _credentials.All, _ids, _line, _product, _lot, _roll, _specimen, _from, _before, _count])
        {
            command.Add(option);
        }
    }

    /// <summary>Gets the readings, from files where any are named, else from the server.</summary>
    /// <exception cref="ChartRefusedException">The options contradict one another or there is nothing to show.</exception>
    /// <exception cref="ScanFileException">A file cannot be read.</exception>
    /// <exception cref="ClearViewCallException">The server refused or could not be reached.</exception>
    public async Task<IReadOnlyList<ChartReading>> LoadAsync(ParseResult parsed, CancellationToken cancellation)
    {
        string[] paths = parsed.GetValue(_paths) ?? [];
        return paths.Length > 0 ? Evaluate(parsed, paths) : await FetchAsync(parsed, cancellation).ConfigureAwait(false);
    }

    private List<ChartReading> Evaluate(ParseResult parsed, string[] paths)
    {
        Method chosen = method.Resolve(parsed)
            ?? throw new ChartRefusedException($"Files are evaluated here and need a method: --method {string.Join(", ", BuiltInMethods.All.Select(builtIn => builtIn.Name))}.");
        ScanFileOptions options = new()
        {
            TransmittanceUnit = parsed.GetValue(_unit) switch
            {
                "percent" => TransmittanceUnit.Percent,
                "fraction" => TransmittanceUnit.Fraction,
                _ => null,
            },
            Defaults = Defaults(parsed),
        };
        var readings = new List<ChartReading>();
        foreach (ScannedSpecimen specimen in paths.SelectMany(ScanFolder.Find).SelectMany(file => ScanFileReader.Read(file, options)))
        {
            EvaluationOutcome outcome = MeasurementEvaluator.Evaluate(specimen.Measurement, chosen, clock);
            if (!outcome.IsAccepted)
            {
                string faults = string.Join("; ", outcome.Violations.Select(violation => $"{violation.Field}: {violation.Description}"));
                throw new ChartRefusedException($"{specimen.FilePath}, line {specimen.Line.ToString(CultureInfo.InvariantCulture)}: {faults}");
            }

            readings.Add(new ChartReading(specimen.Measurement, outcome.Evaluation, $"file {Path.GetFileName(specimen.FilePath)}"));
        }

        return readings;
    }

    private async Task<IReadOnlyList<ChartReading>> FetchAsync(ParseResult parsed, CancellationToken cancellation)
    {
        ClearViewClient client = ClearViewClient.Connect(Servers(parsed), _credentials.Read(parsed));
        await using (client.ConfigureAwait(false))
        {
            var readings = new List<ChartReading>();
            if (parsed.GetValue(_ids) is { Length: > 0 } ids)
            {
                foreach (Guid id in ids)
                {
                    readings.Add(ChartReading.FromStored(await client.GetAsync(id, cancellation).ConfigureAwait(false)));
                }

                return readings;
            }

            int count = parsed.GetValue(_count);
            await foreach (Reading reading in client.ListAsync(Request(parsed, count), cancellation).ConfigureAwait(false))
            {
                readings.Add(ChartReading.FromStored(reading));
                if (readings.Count == count)
                {
                    break;
                }
            }

            return readings;
        }
    }

    private ListReadingsRequest Request(ParseResult parsed, int count) => new()
    {
        PageSize = Math.Min(count, needsSpectra ? PageSizeWithSpectra : PageSize),
        Line = parsed.GetValue(_line) ?? "",
        Product = parsed.GetValue(_product) ?? "",
        Lot = parsed.GetValue(_lot) ?? "",
        Roll = parsed.GetValue(_roll) ?? "",
        Specimen = parsed.GetValue(_specimen) ?? "",
        MeasuredFrom = parsed.GetValue(_from) is { } from ? Timestamp.FromDateTimeOffset(from) : null,
        MeasuredBefore = parsed.GetValue(_before) is { } before ? Timestamp.FromDateTimeOffset(before) : null,
        NewestFirst = true,
        OmitSpectra = !needsSpectra,
    };

    private ServerAddresses Servers(ParseResult parsed)
    {
        string? named = parsed.GetValue(_server) ?? Environment.GetEnvironmentVariable(ServerVariable);
        try
        {
            return ServerAddresses.Parse(string.IsNullOrEmpty(named) ? ServerAddresses.Default : named);
        }
        catch (FormatException error)
        {
            throw new ChartRefusedException(error.Message + ".", error);
        }
    }

    private ImmutableSortedDictionary<string, string> Defaults(ParseResult parsed)
    {
        var defaults = ImmutableSortedDictionary.CreateBuilder<string, string>(StringComparer.Ordinal);
        foreach ((string key, string value) in (parsed.GetValue(_set) ?? []).Select(Split).OfType<(string, string)>())
        {
            defaults[key] = value;
        }

        return defaults.ToImmutable();
    }

    private static (string Key, string Value)? Split(string text)
    {
        int at = text.IndexOf('=', StringComparison.Ordinal);
        return at > 0 && ScanFileKeys.Find(text[..at]) is { } key && text[(at + 1)..].Trim() is { Length: > 0 } value ? (key, value) : null;
    }

    private static Option<string> Filter(string name, string what) =>
        new(name) { HelpName = "TEXT", Description = $"Only stored readings of this {what}, exactly." };

    private static Option<DateTimeOffset?> Time(string name, string description) => new(name)
    {
        HelpName = "TIME",
        Description = description,
        CustomParser = result =>
        {
            string text = result.Tokens[0].Value;
            if (DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out DateTimeOffset time))
            {
                return time;
            }

            result.AddError($"{name}: write a time, for example 2026-03-02T06:00:00Z; \"{text}\" was given");
            return null;
        },
    };
}

using System.CommandLine;
using System.Globalization;
using System.Text.RegularExpressions;

using ClearView.Console.Commands;
using ClearView.Contract.Mapping;
using ClearView.Contract.Methods;
using ClearView.Contract.Validation;
using ClearView.V1;

namespace ClearView.Console.Options;

/// <summary>The options that state a method. There is no default: a result must not depend on what somebody did not think of.</summary>
internal sealed partial class MethodOptions
{
    private static readonly string Names = string.Join(", ", BuiltInMethods.All.Select(method => method.Name));

    private readonly CheckedOption<MethodName> _name = new(
        "--method", "NAME[@VERSION]",
        $"Method by name: {string.Join("; ", BuiltInMethods.All.Select(method => $"{method.Name} ({method.Description})"))}; or one that a server keeps. "
            + "The options below replace parts of it, or state a method without a name.",
        ParseName, $"write a name, or NAME@VERSION; built in are {Names}");

    private readonly IMethodPart[] _parts = [new LightPart(), new ComparisonPart(), new BandPart(), new ThicknessPart(), new UncertaintyPart()];

    /// <summary>Creates the options.</summary>
    public MethodOptions() => _name.Option.Aliases.Add("-m");

    /// <summary>Adds the options to a command, in groups where it documents them.</summary>
    public void AddTo(Command command)
    {
        var documented = command as DocumentedCommand;
        command.Add(_name.Option);
        documented?.BeginGroup(_parts[0].Heading, _name.Option);
        foreach (var part in _parts)
        {
            if (part != _parts[0])
            {
                documented?.BeginGroup(part.Heading, part.Options[0]);
            }
            foreach (var option in part.Options)
            {
                command.Add(option);
            }
        }
    }

    /// <summary>Whether any of the options was given.</summary>
    /// <param name="parsed">The command line.</param>
    public bool AnyIsGiven(ParseResult parsed) =>
        _parts.SelectMany(part => part.Options).Prepend(_name.Option).Any(option => parsed.GetResult(option) is { Implicit: false });

    /// <summary>The method that was stated.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="find">Finds a method that a server keeps; <see langword="null"/> where no server is asked.</param>
    /// <exception cref="UsageException">It was not, or not in full, or its parts do not go together.</exception>
    public async Task<ChosenMethod> ResolveAsync(ParseResult parsed, Func<MethodName, Task<NamedMethod>>? find)
    {
        var source = _name.Resolve(parsed) is { } name ? await FindAsync(name, find) : null;
        var method = source?.Method.Clone() ?? new Method();
        foreach (var part in _parts)
        {
            part.Apply(parsed, method);
        }
        if (method.HazeStandard == HazeStandard.Unspecified || !IsWhole(method.Luminous) || !IsWhole(method.Colour))
        {
            throw new UsageException(
                $"the method is not stated in full: give --method NAME ({Names}), or all of --haze-standard, --luminous and --colour");
        }
        Check(method);
        return new ChosenMethod(method, source is not null && source.Method.Equals(method) ? source : null);
    }

    /// <summary>Reads "NAME" or "NAME@VERSION"; <see langword="null"/> where it is neither.</summary>
    public static MethodName? ParseName(string text) =>
        NameForm().Match(text) is { Success: true } match
            && (match.Groups["version"].Value is not { Length: > 0 } digits || uint.TryParse(digits, CultureInfo.InvariantCulture, out _))
            ? new MethodName
            {
                Name = match.Groups["name"].Value,
                Version = match.Groups["version"].Value is { Length: > 0 } version ? uint.Parse(version, CultureInfo.InvariantCulture) : 0,
            }
            : null;

    /// <summary>A built-in method under its name; <see langword="null"/> where there is none.</summary>
    public static NamedMethod? FindBuiltIn(string name) => BuiltInMethods.Find(name)?.ToNamedMethod();

    /// <summary>A method by its name: a built-in one, else one that a server keeps.</summary>
    /// <exception cref="UsageException">There is none, or no server is asked.</exception>
    public static async Task<NamedMethod> FindAsync(MethodName name, Func<MethodName, Task<NamedMethod>>? find)
    {
        if (FindBuiltIn(name.Name) is { } builtIn)
        {
            return name.Version == 0 || name.Version == builtIn.MethodName.Version
                ? builtIn
                : throw new UsageException($"{name.Name} is built in and has no version {name.Version}; write {name.Name}");
        }
        return find is not null
            ? await find(name)
            : throw new UsageException($"\"{name.Name}\" is not a built-in method: there are {Names}. One that a server keeps needs --server");
    }

    private static bool IsWhole(LightAndObserver? pair) => pair is { Illuminant.Length: > 0 } && pair.Observer != Observer.Unspecified;

    // The rules of the contract, before any file is read.
    private static void Check(Method method)
    {
        var violations = new Violations();
        MethodReader.Read(method, "method", violations);
        if (!violations.IsEmpty)
        {
            var faults = violations.ToImmutable()
                .Select(violation => $"{violation.Field.Replace("method.", "", StringComparison.Ordinal)} {violation.Description.TrimEnd('.')}".TrimStart());
            throw new UsageException($"the method does not hold together: {string.Join("; ", faults)}");
        }
    }

    [GeneratedRegex("^(?<name>[a-z][a-z0-9.-]{0,59})(@(?<version>[1-9][0-9]{0,8}))?$", RegexOptions.CultureInvariant)]
    private static partial Regex NameForm();
}

using System.Reflection;
using System.Text.RegularExpressions;

using ClearView.Repository.Tests.Support;

using Google.Protobuf.Reflection;

namespace ClearView.Repository.Tests;

/// <summary>Rules of the wire contract that the linter does not know.</summary>
/// <remarks>That everything is commented is the linter's rule COMMENTS; here is checked that nobody switches it off.</remarks>
public sealed partial class ContractTests
{
    private static readonly string[] UnitSuffixes = ["_nm", "_um", "_mm", "_m", "_c", "_percent", "_hours", "_fraction", "_count", "_ppm", "_per_h", "_per_m"];

    // Words by which a comment says the unit, of the field itself or of all fields of a message.
    private static readonly string[] UnitWords =
        ["in the measurand's unit", "in `unit`", "in any unit", "in the same unit", "in the square of the measurand's unit",
         "in the unit of what it is about", "number without unit", "numbers without unit", "in standard deviations"];

    // Numbers without a unit in their name, and where their unit is instead.
    private static readonly Dictionary<string, string> Unitless = new(StringComparer.Ordinal)
    {
        ["clearview.v1.CielabColour.a_star"] = "a number without unit",
        ["clearview.v1.CielabColour.b_star"] = "a number without unit",
        ["clearview.v1.CielabColour.l_star"] = "a number without unit",
        ["clearview.v1.Conditions.specimen_count"] = "a count",
        ["clearview.v1.Contribution.standard_uncertainty"] = "the unit of the value it belongs to",
        ["clearview.v1.Method.initial_yellowness_index"] = "a number without unit",
        ["clearview.v1.MonteCarlo.seed"] = "a number without unit",
        ["clearview.v1.MonteCarlo.significant_digits"] = "a count",
        ["clearview.v1.MonteCarloInterval.interval_high"] = "the unit of the value it belongs to",
        ["clearview.v1.MonteCarloInterval.interval_low"] = "the unit of the value it belongs to",
        ["clearview.v1.MonteCarloInterval.mean"] = "the unit of the value it belongs to",
        ["clearview.v1.MonteCarloInterval.standard_uncertainty"] = "the unit of the value it belongs to",
        ["clearview.v1.MonteCarloInterval.trial_count"] = "a count",
        ["clearview.v1.ReferenceThickness.refractive_index"] = "a number without unit",
        ["clearview.v1.RefractiveIndexTable.refractive_index"] = "a number without unit",
        ["clearview.v1.ScatteringFit.exponent"] = "a number without unit",
        ["clearview.v1.ScatteringFit.exponent_standard_error"] = "a number without unit",
        ["clearview.v1.SpectralPower.relative_power"] = "lamp scale, only ratios count",
        ["clearview.v1.Uncertainty.coverage_factor"] = "a number without unit",
        ["clearview.v1.Uncertainty.effective_degrees_of_freedom"] = "a number without unit",
        ["clearview.v1.Uncertainty.expanded_uncertainty"] = "the unit of the value it belongs to",
        ["clearview.v1.Uncertainty.standard_uncertainty"] = "the unit of the value it belongs to",
        ["clearview.v1.UncertaintyInputs.repeatability_reading_count"] = "a count",
        ["clearview.v1.RegularGrid.count"] = "a count",
        ["clearview.v1.MethodName.version"] = "a count",
        ["clearview.v1.DifferenceFactors.lightness"] = "a number without unit",
        ["clearview.v1.DifferenceFactors.chroma"] = "a number without unit",
        ["clearview.v1.DifferenceFactors.hue"] = "a number without unit",
        ["clearview.v1.DifferenceFactors.cmc_lightness"] = "a number without unit",
        ["clearview.v1.DifferenceFactors.cmc_chroma"] = "a number without unit",
        ["clearview.v1.SpecimenMean.mean"] = "the unit of the measurand",
        ["clearview.v1.SpecimenMean.standard_deviation"] = "the unit of the measurand",
        ["clearview.v1.SpecimenMean.specimen_count"] = "a count",
        ["clearview.v1.WallSummary.minimum"] = "the unit of the measurand",
        ["clearview.v1.WallSummary.mean"] = "the unit of the measurand",
        ["clearview.v1.WallSummary.maximum"] = "the unit of the measurand",
        ["clearview.v1.WallSummary.at_thinnest"] = "the unit of the measurand",
        ["clearview.v1.WallSummary.place_count"] = "a count",
        ["clearview.v1.WhitePointInfo.tristimulus_x"] = "a number without unit",
        ["clearview.v1.WhitePointInfo.tristimulus_y"] = "a number without unit",
        ["clearview.v1.WhitePointInfo.tristimulus_z"] = "a number without unit",
        ["clearview.v1.ResinInfo.refractive_index"] = "a number without unit",
        ["clearview.v1.ListMethodsRequest.page_size"] = "a count",
        ["clearview.v1.ListReadingsRequest.page_size"] = "a count",
        ["clearview.v1.ListSpecificationsRequest.page_size"] = "a count",
        ["clearview.v1.ListReferencesRequest.page_size"] = "a count",
        ["clearview.v1.ListControlChartsRequest.page_size"] = "a count",
        ["clearview.v1.MeasuredValue.value"] = "the field unit beside it says",
        ["clearview.v1.NormalisedScans.total_transmittance"] = "the field transmittance_unit beside it says",
        ["clearview.v1.NormalisedScans.diffuse_transmittance"] = "the field transmittance_unit beside it says",
        ["clearview.v1.SphereScans.incident_reading"] = "detector scale, only ratios count",
        ["clearview.v1.SphereScans.total_reading"] = "detector scale, only ratios count",
        ["clearview.v1.SphereScans.instrument_scatter_reading"] = "detector scale, only ratios count",
        ["clearview.v1.SphereScans.specimen_scatter_reading"] = "detector scale, only ratios count",
        ["clearview.v1.HazemeterReadings.incident_reading"] = "detector scale, only ratios count",
        ["clearview.v1.HazemeterReadings.total_reading"] = "detector scale, only ratios count",
        ["clearview.v1.HazemeterReadings.instrument_scatter_reading"] = "detector scale, only ratios count",
        ["clearview.v1.HazemeterReadings.specimen_scatter_reading"] = "detector scale, only ratios count",
    };

    // Comments by "Message" and "Message.field", each on one line.
    private static readonly Lazy<Dictionary<string, string>> Comments = new(ReadComments);

    private static IReadOnlyList<FileDescriptor> Files { get; } =
    [
        .. ProductAssemblies.Load("ClearView.Contract").GetTypes()
            .Select(type => type.GetProperty("Descriptor", BindingFlags.Public | BindingFlags.Static))
            .Where(property => property?.PropertyType == typeof(FileDescriptor))
            .Select(property => (FileDescriptor)property!.GetValue(null)!),
    ];

    private static IEnumerable<MessageDescriptor> Messages => Files.SelectMany(file => file.MessageTypes).SelectMany(WithNested);

    [Fact]
    public void Descriptors_CoverEveryProtoFile() =>
        Assert.Equal(
            Tree.FilesEndingIn(".proto").Select(file => file["protos/".Length..]).Order(StringComparer.Ordinal),
            Files.Select(file => file.Name).Order(StringComparer.Ordinal));

    [Fact]
    public void NumericField_NamesItsUnit()
    {
        IEnumerable<string> findings =
            from message in Messages
            from field in message.Fields.InDeclarationOrder()
            where IsNumeric(field) && !Unitless.ContainsKey(field.FullName)
            where !UnitSuffixes.Any(suffix => field.Name.EndsWith(suffix, StringComparison.Ordinal))
            where !SaysItsUnit(Comments.Value[message.Name] + Comments.Value[$"{message.Name}.{field.Name}"])
            select field.FullName;

        Findings.AssertNone("A number without unit:", findings);
    }

    [Fact]
    public void NumberWithoutUnit_IsStillThere()
    {
        HashSet<string> numeric = [.. Messages.SelectMany(message => message.Fields.InDeclarationOrder()).Where(IsNumeric).Select(field => field.FullName)];

        Findings.AssertNone("Excused here, but no longer in the contract:", Unitless.Keys.Where(name => !numeric.Contains(name)));
    }

    [Fact]
    public void EnumZero_IsUnspecified()
    {
        IEnumerable<string> findings =
            from type in Files.SelectMany(file => file.EnumTypes).Concat(Messages.SelectMany(message => message.EnumTypes))
            let zero = type.FindValueByNumber(0)
            where zero is null || !zero.Name.EndsWith("_UNSPECIFIED", StringComparison.Ordinal)
            select type.FullName;

        Findings.AssertNone("An enum whose zero means something:", findings);
    }

    [Fact]
    public void Rpc_SaysItsStatusCodesAndWhetherARetryIsSafe()
    {
        int rpcs = 0;
        List<string> findings = [];
        foreach (string file in Tree.FilesEndingIn(".proto"))
        {
            foreach (Match rpc in CommentedRpc().Matches(Tree.Read(file)))
            {
                rpcs++;
                string comment = rpc.Groups["comment"].Value;
                if (!comment.Contains("Status codes:", StringComparison.Ordinal) || !comment.Contains("Retry:", StringComparison.Ordinal))
                {
                    findings.Add($"{file}: {rpc.Groups["name"].Value}");
                }
            }
        }

        Findings.AssertNone("An rpc that does not say its status codes and whether a retry is safe:", findings);
        Assert.Equal(Files.SelectMany(file => file.Services).Sum(service => service.Methods.Count), rpcs);
    }

    [Fact]
    public void RequestField_SaysWhetherItIsRequired()
    {
        List<string> findings = [];
        foreach (string file in Tree.FilesEndingIn(".proto"))
        {
            findings.AddRange(
                from message in RequestMessage().Matches(Tree.Read(file))
                from field in CommentedField().Matches(message.Groups["body"].Value)
                let comment = field.Groups["comment"].Value
                where !comment.Contains("Required", StringComparison.Ordinal) && !comment.Contains("Optional", StringComparison.Ordinal)
                select $"{file}: {message.Groups["name"].Value}.{field.Groups["name"].Value}");
        }

        Findings.AssertNone("A field of a request that says neither required nor optional:", findings);
    }

    [Fact]
    public void Linter_RequiresCommentsAndIgnoresNothing()
    {
        string rules = Tree.Read("protos/buf.yaml");

        Assert.Contains("- STANDARD", rules, StringComparison.Ordinal);
        Assert.Contains("- COMMENTS", rules, StringComparison.Ordinal);
        Assert.DoesNotContain("except", rules, StringComparison.Ordinal);
        Assert.DoesNotContain("ignore", rules, StringComparison.Ordinal);
        Findings.AssertNone(
            "A file that switches the linter off:",
            Tree.FilesEndingIn(".proto").Where(file => Tree.Read(file).Contains("buf:lint:ignore", StringComparison.Ordinal)));
    }

    // One walk over the lines: a comment belongs to the message or field on the line after it.
    private static Dictionary<string, string> ReadComments()
    {
        Dictionary<string, string> comments = new(StringComparer.Ordinal);
        foreach (string file in Tree.FilesEndingIn(".proto"))
        {
            string message = "";
            string comment = "";
            foreach (string line in Tree.Read(file).Split('\n').Select(line => line.Trim()))
            {
                if (line.StartsWith("//", StringComparison.Ordinal))
                {
                    comment += line[2..];
                    continue;
                }

                if (MessageLine().Match(line) is { Success: true } opened)
                {
                    message = opened.Groups["name"].Value;
                    comments[message] = comment;
                }
                else if (FieldLine().Match(line) is { Success: true } field)
                {
                    comments[$"{message}.{field.Groups["name"].Value}"] = comment;
                }

                comment = "";
            }
        }

        return comments;
    }

    private static bool SaysItsUnit(string comment) => UnitWords.Any(words => comment.Contains(words, StringComparison.Ordinal));

    private static IEnumerable<MessageDescriptor> WithNested(MessageDescriptor message) =>
        message.NestedTypes.SelectMany(WithNested).Prepend(message);

    private static bool IsNumeric(FieldDescriptor field) => field.FieldType
        is not (FieldType.Message or FieldType.Group or FieldType.Enum or FieldType.String or FieldType.Bytes or FieldType.Bool);

    [GeneratedRegex(@"(?<comment>(?:^ *//.*\n)*)^ *rpc (?<name>\w+)\(", RegexOptions.Multiline)]
    private static partial Regex CommentedRpc();

    [GeneratedRegex(@"^message (?<name>\w+Request) \{\n(?<body>.*?)^\}", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex RequestMessage();

    [GeneratedRegex(@"(?<comment>(?:^ *//.*\n)*)^ *[\w. ]+ (?<name>\w+) = \d+", RegexOptions.Multiline)]
    private static partial Regex CommentedField();

    [GeneratedRegex(@"^message (?<name>\w+) \{")]
    private static partial Regex MessageLine();

    [GeneratedRegex(@"^[\w. ]+ (?<name>\w+) = \d+")]
    private static partial Regex FieldLine();
}

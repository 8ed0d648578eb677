using System.CommandLine;

using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;
using ClearView.Plotting.Rendering;

namespace ClearView.Plotting.Commands;

/// <summary>Draws a decision from a file of protobuf's JSON; no server is asked.</summary>
internal sealed class DecisionCommand : Command
{
    private const string Text = """
        A control chart, capability, roll map, comparison of lots, acceptance plan or verdict, from a JSON file that holds the
        server's answer.

        Examples:
          chart decision capability.json --output capability.png
          chart decision roll.json --output roll.svg
        """;

    private const int Ok = 0;
    private const int BadInput = 2;

    private readonly Argument<string> _file = new("FILE") { Description = "JSON of the answer, as --json writes it; of a control chart one object, or an array of its parts." };

    private readonly Option<string> _output = new("--output", "-o")
    {
        HelpName = "FILE",
        Required = true,
        Description = "Picture to write, .png, .svg or .pdf; of several comparisons one each, named by measurand. Folders are created.",
    };

    public DecisionCommand()
        : base("decision", Text)
    {
        _output.Validators.Add(result =>
        {
            if (result.GetValueOrDefault<string>() is { } path && FormatOf(path) is null)
            {
                result.AddError($"--output {path}: the name must end with .png, .svg or .pdf.");
            }
        });
        Add(_file);
        Add(_output);
        SetAction(Run);
    }

    private static ChartFormat? FormatOf(string path) => Path.GetExtension(path).ToUpperInvariant() switch
    {
        ".PNG" => ChartFormat.Png,
        ".SVG" => ChartFormat.Svg,
        ".PDF" => ChartFormat.Pdf,
        _ => null,
    };

    private int Run(ParseResult parsed)
    {
        string output = parsed.GetRequiredValue(_output);
        try
        {
            foreach ((string suffix, ChartModel chart) in DecisionFile.Charts(parsed.GetRequiredValue(_file)))
            {
                string folder = Path.GetDirectoryName(output) is { Length: > 0 } named ? named : ".";
                string name = Path.GetFileNameWithoutExtension(output) + suffix;
                foreach (string path in ChartWriter.Write(chart, folder, name, [FormatOf(output)!.Value]))
                {
                    parsed.InvocationConfiguration.Output.WriteLine(path);
                }
            }

            return Ok;
        }
        catch (Exception e) when (e is ChartRefusedException or IOException or UnauthorizedAccessException)
        {
            parsed.InvocationConfiguration.Error.WriteLine($"error: {e.Message}");
            return BadInput;
        }
    }
}

using System.Collections.Immutable;
using System.CommandLine;

using ClearView.Plotting.Model;
using ClearView.Plotting.Rendering;

namespace ClearView.Plotting.Commands;

/// <summary>The options that say where a chart goes.</summary>
internal sealed class ChartOutput
{
    private readonly Option<string> _folder = new("--out", "-o")
    {
        HelpName = "FOLDER",
        DefaultValueFactory = _ => "charts",
        Description = "Folder to write to; created when it does not exist.",
    };

    private readonly Option<string?> _name = new("--name")
    {
        HelpName = "NAME",
        Description = "File name without extension. [default: the chart's kind]",
    };

    private readonly Option<string> _format = new("--format")
    {
        HelpName = "FORMAT",
        DefaultValueFactory = _ => "both",
        Description = "png, svg or both.",
    };

    /// <summary>Adds the options to a command.</summary>
    public void AddTo(Command command)
    {
        _format.AcceptOnlyFromAmong("png", "svg", "both");
        command.Add(_folder);
        command.Add(_name);
        command.Add(_format);
    }

    /// <summary>Writes a chart and prints where.</summary>
    public void Write(ParseResult parsed, ChartModel chart, string kind, string suffix = "")
    {
        string name = (parsed.GetValue(_name) ?? kind) + suffix;
        ImmutableArray<ChartFormat> formats = parsed.GetValue(_format) switch
        {
            "png" => [ChartFormat.Png],
            "svg" => [ChartFormat.Svg],
            _ => [ChartFormat.Png, ChartFormat.Svg],
        };
        foreach (string path in ChartWriter.Write(chart, parsed.GetRequiredValue(_folder), name, formats))
        {
            parsed.InvocationConfiguration.Output.WriteLine(path);
        }
    }
}

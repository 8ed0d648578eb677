using System.CommandLine;

using ClearView.Console.Commands;
using ClearView.Console.Rendering;
using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;
using ClearView.Plotting.Rendering;

namespace ClearView.Console.Options;

/// <summary>The option that also draws the answer as a picture.</summary>
internal sealed class ChartFileOption
{
    private readonly Option<string?> _file = new("--chart")
    {
        HelpName = "FILE",
        Description = "Also draw it to this file: .png, .svg or .pdf. An existing file is replaced.",
    };

    /// <summary>Adds the option to a command.</summary>
    public void AddTo(Command command)
    {
        _file.Validators.Add(result =>
        {
            if (result.GetValueOrDefault<string?>() is { } path && (FormatOf(path) is null || Path.GetFileNameWithoutExtension(path).Length == 0))
            {
                result.AddError($"--chart: write a file name that ends with .png, .svg or .pdf; \"{path}\" was given");
            }
        });
        command.Add(_file);
    }

    /// <summary>Draws the answer where a picture was asked for, and says on the messages where it is.</summary>
    /// <param name="screen">Takes the message.</param>
    /// <param name="parsed">The command line.</param>
    /// <param name="charts">What to draw; each beyond the first carries a suffix for its file.</param>
    /// <exception cref="UsageException">There is nothing to draw, or the file cannot be written.</exception>
    public void Write(Screen screen, ParseResult parsed, params ReadOnlySpan<(string Suffix, Func<ChartModel> Build)> charts)
    {
        if (parsed.GetValue(_file) is not { } path)
        {
            return;
        }
        var folder = Path.GetDirectoryName(path) is { Length: > 0 } named ? named : ".";
        try
        {
            foreach (var (suffix, build) in charts)
            {
                foreach (var written in ChartWriter.Write(build(), folder, Path.GetFileNameWithoutExtension(path) + suffix, [FormatOf(path)!.Value]))
                {
                    screen.Note($"drawn to {written}");
                }
            }
        }
        catch (Exception e) when (e is ChartRefusedException or IOException or UnauthorizedAccessException)
        {
            throw new UsageException($"--chart {path}: {e.Message}");
        }
    }

    private static ChartFormat? FormatOf(string path) => Path.GetExtension(path).ToUpperInvariant() switch
    {
        ".PNG" => ChartFormat.Png,
        ".SVG" => ChartFormat.Svg,
        ".PDF" => ChartFormat.Pdf,
        _ => null,
    };
}

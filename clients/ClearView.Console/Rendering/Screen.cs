using System.Text;

using Spectre.Console;

namespace ClearView.Console.Rendering;

/// <summary>Where results and messages go: results to the standard output, everything else to the standard error.</summary>
/// <remarks>Piped output is plain: no colour, no control characters, 100 columns.</remarks>
internal sealed class Screen
{
    /// <summary>Width of everything that is not shown on a terminal.</summary>
    public const int Width = 100;

    // Narrower terminals wrap lines themselves.
    private const int LeastWidth = 80;

    private readonly IAnsiConsole _results;
    private readonly IAnsiConsole _messages;

    /// <summary>Creates a screen on two writers.</summary>
    /// <param name="output">Takes the results.</param>
    /// <param name="errors">Takes the messages.</param>
    /// <param name="outputIsTerminal">Whether results may be coloured.</param>
    /// <param name="errorsAreTerminal">Whether messages may be coloured and progress is shown.</param>
    /// <param name="width">Columns of the terminal.</param>
    public Screen(TextWriter output, TextWriter errors, bool outputIsTerminal = false, bool errorsAreTerminal = false, int width = Width)
    {
        Output = outputIsTerminal ? output : new LineTrimmingWriter(output);
        Errors = errorsAreTerminal ? errors : new LineTrimmingWriter(errors);
        ErrorsAreTerminal = errorsAreTerminal;
        Columns = width;
        ShowsTrueColour = outputIsTerminal && Environment.GetEnvironmentVariable("COLORTERM") is "truecolor" or "24bit";
        _results = CreateConsole(Output, outputIsTerminal, ShowsTrueColour, width);
        _messages = CreateConsole(Errors, errorsAreTerminal, trueColour: false, width);
    }

    /// <summary>Takes plain results, such as JSON.</summary>
    public TextWriter Output { get; }

    /// <summary>Takes plain messages.</summary>
    public TextWriter Errors { get; }

    /// <summary>Whether somebody watches the messages.</summary>
    public bool ErrorsAreTerminal { get; }

    /// <summary>Columns that results may take.</summary>
    public int Columns { get; }

    /// <summary>Whether any colour of an sRGB screen can be shown as it is.</summary>
    public bool ShowsTrueColour { get; }

    /// <summary>The screen of this process. Colour is left out where NO_COLOR is set.</summary>
    public static Screen OfProcess()
    {
        System.Console.OutputEncoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
        var coloured = string.IsNullOrEmpty(Environment.GetEnvironmentVariable("NO_COLOR")) && Environment.GetEnvironmentVariable("TERM") != "dumb";
        var outputIsTerminal = coloured && !System.Console.IsOutputRedirected;
        var width = outputIsTerminal ? Math.Max(System.Console.WindowWidth, LeastWidth) : Width;
        return new Screen(System.Console.Out, System.Console.Error, outputIsTerminal, coloured && !System.Console.IsErrorRedirected, width);
    }

    /// <summary>Writes a table or a text of the renderers.</summary>
    public void Write(Spectre.Console.Rendering.IRenderable renderable) => _results.Write(renderable);

    /// <summary>Writes a line with markup.</summary>
    public void Line(string markup = "") => _results.MarkupLine(markup);

    /// <summary>Says what went wrong.</summary>
    public void Error(string message) => _messages.MarkupLine($"[red]error:[/] {Markup.Escape(message)}");

    /// <summary>Says what to look at.</summary>
    public void Note(string message) => _messages.MarkupLine($"[yellow]note:[/] {Markup.Escape(message)}");

    /// <summary>Says what might help.</summary>
    public void Hint(string message) => _messages.MarkupLine($"  {Markup.Escape(message)}");

    /// <summary>Shows progress to whoever watches; says nothing in a pipe.</summary>
    /// <param name="title">What is going on.</param>
    /// <param name="total">Steps there are.</param>
    /// <param name="work">The work, which reports each step.</param>
    public async Task<T> WithProgressAsync<T>(string title, int total, Func<Action, Task<T>> work)
    {
        const int WorthShowing = 20;
        if (!ErrorsAreTerminal || total < WorthShowing)
        {
            return await work(static () => { });
        }
        return await _messages.Progress().AutoClear(true)
            .Columns(new TaskDescriptionColumn(), new ProgressBarColumn(), new PercentageColumn(), new RemainingTimeColumn())
            .StartAsync(async context =>
            {
                var task = context.AddTask(Markup.Escape(title), maxValue: total);
                return await work(() => task.Increment(1));
            });
    }

    private static IAnsiConsole CreateConsole(TextWriter writer, bool isTerminal, bool trueColour, int width)
    {
        var console = AnsiConsole.Create(new AnsiConsoleSettings
        {
            Ansi = isTerminal ? AnsiSupport.Yes : AnsiSupport.No,
            ColorSystem = !isTerminal ? ColorSystemSupport.NoColors : trueColour ? ColorSystemSupport.TrueColor : ColorSystemSupport.Standard,
            Interactive = isTerminal ? InteractionSupport.Yes : InteractionSupport.No,
            Out = new AnsiConsoleOutput(writer),
        });
        console.Profile.Width = width;
        console.Profile.Capabilities.Unicode = true;
        return console;
    }
}

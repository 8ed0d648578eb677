using System.CommandLine;

using ClearView.Plotting.Charts;
using ClearView.V1;

namespace ClearView.Plotting.Commands;

/// <summary>The options that say which method evaluates files. A program with more choices than a name brings its own.</summary>
public interface IMethodChoice
{
    /// <summary>Adds the options to a command.</summary>
    /// <param name="command">The command.</param>
    void AddTo(Command command);

    /// <summary>The method that was chosen; <see langword="null"/> where none of the options was given.</summary>
    /// <param name="parsed">The command line.</param>
    /// <exception cref="ChartRefusedException">The options do not state a method in full.</exception>
    Method? Resolve(ParseResult parsed);
}

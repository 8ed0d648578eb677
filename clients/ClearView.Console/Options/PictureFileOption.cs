using System.CommandLine;

using ClearView.Console.Commands;
using ClearView.Contract.Pictures;

using Google.Protobuf;

namespace ClearView.Console.Options;

/// <summary>The option that adds a picture to a reading.</summary>
internal sealed class PictureFileOption
{
    private readonly Option<string?> _picture = new("--picture")
    {
        HelpName = "FILE",
        Description = "A picture of the specimen, PNG or JPEG, up to 2 MB; goes with one specimen only.",
    };

    /// <summary>Adds the option to a command.</summary>
    public void AddTo(Command command) => command.Add(_picture);

    /// <summary>Whether a picture was given.</summary>
    public bool IsGiven(ParseResult parsed) => parsed.GetValue(_picture) is not null;

    /// <summary>The picture; empty where none was given.</summary>
    /// <exception cref="UsageException">It cannot be read, or is no picture that the server takes.</exception>
    public ByteString Resolve(ParseResult parsed)
    {
        if (parsed.GetValue(_picture) is not { } path)
        {
            return ByteString.Empty;
        }
        try
        {
            var bytes = File.ReadAllBytes(path);
            return PictureChecker.Check(bytes, out _) is { } fault ? throw new UsageException($"{path}: {fault}") : ByteString.CopyFrom(bytes);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new UsageException($"{path} cannot be read: {error.Message}");
        }
    }
}

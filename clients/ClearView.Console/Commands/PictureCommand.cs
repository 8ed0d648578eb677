using System.CommandLine;

using ClearView.Console.Options;
using ClearView.Console.Rendering;

namespace ClearView.Console.Commands;

/// <summary>Fetches the picture of a stored reading.</summary>
internal sealed class PictureCommand : DocumentedCommand
{
    private readonly Argument<string> _id = new("id") { Description = "The reading's identifier, as post and list show it." };
    private readonly Option<string> _out = new("--out") { HelpName = "FILE", Required = true, Description = "Write it to this file, which must not exist yet. Required." };
    private readonly ServerOption _server = new(isOptional: false);

    /// <summary>Creates the command.</summary>
    public PictureCommand(Screen screen)
        : base("picture", "Fetch the picture of a stored reading, bit for bit as it was posted.",
        [
            "clearview picture 019cae1a-7d20-7c1e-9b1a-5b8f0a6f3c11 --out specimen.png",
            "clearview picture 019cae1a-7d20-7c1e-9b1a-5b8f0a6f3c11 --out F-0012.jpg --server 127.0.0.1:5180",
        ])
    {
        Add(_id);
        Add(_out);
        _server.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(screen, parsed, cancellation)));
    }

    private async Task<int> RunAsync(Screen screen, ParseResult parsed, CancellationToken cancellation)
    {
        var id = ShowCommand.ReadId(parsed.GetRequiredValue(_id));
        var path = parsed.GetRequiredValue(_out);
        NewFile.RequireNone(path);
        await using var client = _server.Connect(parsed);
        var answer = await client.GetPictureAsync(id, cancellation);
        try
        {
            using var file = new NewFile(path);
            await file.Stream.WriteAsync(answer.Picture.Memory, cancellation);
            file.Complete();
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new UsageException($"{path} cannot be written: {error.Message}");
        }
        screen.Output.Write($"{NumberText.Plain(answer.Info.ByteCount)} bytes written to {path}; SHA-256 {answer.Info.Sha256}\n");
        return ExitCode.Ok;
    }
}

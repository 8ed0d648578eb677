using System.Text.Json.Nodes;

using ClearView.Contract.Tests.Pictures;

namespace ClearView.Console.Tests.Server;

/// <summary>Corrections, origins and pictures against the real server.</summary>
public class CorrectCommandTests
{
    [Fact]
    public async Task Correct_ScreensAreThoseThatWereLookedAt()
    {
        await using var server = await ServerSession.StartAsync();
        await server.RunAsync("post Samples/film-total-diffuse.csv --method astm --person \"E. Marsh\" --station \"line 3\"");
        var id = await IdAsync(server);

        var corrected = await server.RunAsync(
            $"correct {id} Samples/film-total-diffuse.csv --method astm --override roll=15 --reason \"wrong roll typed\" --person \"E. Marsh\" --station \"line 3\"");
        var list = await server.RunAsync("list");
        var earlier = await server.RunAsync($"show {id}");
        var again = await server.RunAsync(
            $"correct {id} Samples/film-total-diffuse.csv --method astm --override roll=16 --reason \"wrong roll typed\" --person \"E. Marsh\" --station \"line 3\"");

        Assert.Equal([0, 0, 0, 2], new[] { corrected, list, earlier, again }.Select(run => run.ExitCode));
        foreach (var (name, run) in new[] { ("correct", corrected), ("correct-list", list), ("correct-earlier", earlier), ("correct-again", again) })
        {
            Assert.All(run.Output.Split('\n'), line => Assert.True(line.Length <= 100, line));
            GoldenFile.Check(name, run.ToString());
        }
    }

    [Fact]
    public async Task Picture_IsPostedAndFetchedBitForBit()
    {
        await using var server = await ServerSession.StartAsync();
        var folder = Directory.CreateTempSubdirectory("clearview-picture-");
        try
        {
            var (file, fetched) = (Path.Combine(folder.FullName, "specimen.jpg"), Path.Combine(folder.FullName, "fetched.jpg"));
            await File.WriteAllBytesAsync(file, PictureExamples.Jpeg(), TestContext.Current.CancellationToken);

            var post = await server.RunAsync($"post Samples/film-total-diffuse.csv --method astm --picture {file}");
            var picture = await server.RunAsync($"picture {await IdAsync(server)} --out {fetched}");
            var again = await server.RunAsync($"picture {await IdAsync(server)} --out {fetched}");
            var none = await server.RunAsync($"picture 019cae1a-7d20-7c1e-9b1a-5b8f0a6f3c11 --out {Path.Combine(folder.FullName, "none.jpg")}");
            var show = await server.RunAsync($"show {await IdAsync(server)}");

            Assert.Equal([0, 0, 2, 2, 0], new[] { post, picture, again, none, show }.Select(run => run.ExitCode));
            Assert.Contains("exists; name a new file", string.Join(' ', again.Errors.Split([' ', '\n'], StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
            Assert.Equal(["fetched.jpg", "specimen.jpg"], folder.EnumerateFiles().Select(left => left.Name).Order(StringComparer.Ordinal));
            Assert.Equal(PictureExamples.Jpeg(), await File.ReadAllBytesAsync(fetched, TestContext.Current.CancellationToken));
            Assert.Contains("JPEG, 16 x 9 pixels, 630 bytes", show.Output, StringComparison.Ordinal);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [Theory]
    [InlineData("post Samples --method astm --picture Samples/hazemeter.csv", "goes with one specimen")]
    [InlineData("post Samples/film-total-diffuse.csv --method astm --picture Samples/hazemeter.csv", "neither PNG nor JPEG")]
    [InlineData("correct 019cae1a-7d20-7c1e-9b1a-5b8f0a6f3c11 Samples/film-total-diffuse.csv --method astm --reason typo", "say who corrects")]
    [InlineData("correct 019cae1a-7d20-7c1e-9b1a-5b8f0a6f3c11 Samples/film-total-diffuse.csv --method astm --reason typo --person me", "no reading 019cae1a")]
    public async Task WhatCannotBe_IsToldInWords(string line, string expected)
    {
        await using var server = await ServerSession.StartAsync();

        var run = await server.RunAsync(line);

        Assert.Equal(2, run.ExitCode);
        Assert.Contains(expected, run.Errors, StringComparison.Ordinal);
    }

    private static async Task<string> IdAsync(ServerSession server) =>
        (string)JsonNode.Parse((await server.RunAsync("list --specimen F-0012 --json")).Output)!["readings"]![0]!["reading"]!["readingId"]!;
}

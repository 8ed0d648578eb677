using ClearView.Benchmarks.Measuring;
using ClearView.Benchmarks.Posting;
using ClearView.V1;

using Method = ClearView.V1.Method;

namespace ClearView.Benchmarks.Evaluating;

/// <summary>Evaluation without storing, beside an echo of the same messages on the same kind of socket.</summary>
/// <remarks>
/// A message of EvaluateMany holds one measurement: the stream has no batches. Batches of measurements are known to EvaluateSpecimens
/// alone, a call by itself. Both ends share the process, and both sides have the contract's own client without anything around it.
/// </remarks>
internal static class EvaluateStreamLoad
{
    private const int MessagesPerRound = 20_000;
    private const int SpectralMessagesPerRound = 2_000;
    private const int BatchSize = 100;

    /// <summary>Runs rounds and prints messages per second and their ratio.</summary>
    /// <param name="arguments">The number of rounds, or nothing.</param>
    public static async Task RunAsync(IReadOnlyList<string> arguments)
    {
        var rounds = Counts.Read(arguments, least: 1, 9)[0];
        Machine.Print("");
        using var folder = new TemporaryFolder();
        await using var server = await LoopbackServer.StartAsync(folder.File("empty.db"));
        var answers = new EchoAnswers();
        await using var echo = await EchoServer.StartAsync(answers);
        EvaluationService.EvaluationServiceClient real = new(server.Channel);
        EvaluationService.EvaluationServiceClient plain = new(echo.Channel);

        var film = PostedFilm.Post(0);
        var small = Enumerable.Range(0, MessagesPerRound)
            .Select(i => PostedHazemeter.Measurement(i, film.Measurement.MeasuredAt.ToDateTimeOffset(), "line 3", "L-7")).ToArray();
        var spectral = Enumerable.Range(0, SpectralMessagesPerRound).Select(i => PostedFilm.Post(i).Measurement).ToArray();
        Console.WriteLine("One message of EvaluateMany is one measurement; its contract has no batches.");
        await StreamAsync("hazemeter readings", small, PostedHazemeter.Method);
        await StreamAsync("2 x 81 points, spectra left out of the answer", spectral, film.Method);
        await BatchesAsync(small);

        async Task StreamAsync(string name, Measurement[] measurements, Method method)
        {
            EvaluateManyRequest[] requests = [.. measurements.Select((measurement, i) => new EvaluateManyRequest
            {
                CorrelationId = FormattableString.Invariant($"{i}"), Measurement = measurement, Method = method, OmitSpectra = true,
            })];
            answers.Evaluation = await MessageStream.RunAsync(real, requests);
            await MessageStream.RunAsync(plain, requests);
            Console.WriteLine();
            Console.WriteLine(FormattableString.Invariant(
                $"EvaluateMany, {name}: {requests[0].CalculateSize()} bytes per request, {answers.Evaluation.CalculateSize()} per evaluation; {requests.Length} messages per round"));
            await AlternatingRounds.RunAsync(
                rounds, requests.Length, "echo", "evaluation", () => (() => MessageStream.RunAsync(plain, requests), () => MessageStream.RunAsync(real, requests)));
        }

        async Task BatchesAsync(Measurement[] measurements)
        {
            EvaluateSpecimensRequest[] requests = [.. measurements.Chunk(BatchSize).Select(
                batch => new EvaluateSpecimensRequest { Measurements = { batch }, Method = PostedHazemeter.Method, OmitSpectra = true })];
            answers.Specimens = await CallsAsync(real, requests);
            await CallsAsync(plain, requests);
            Console.WriteLine();
            Console.WriteLine(FormattableString.Invariant(
                $"EvaluateSpecimens, {BatchSize} hazemeter readings per call, one call after the other: {requests[0].CalculateSize()} bytes per request, {answers.Specimens.CalculateSize()} per answer; rates are readings"));
            await AlternatingRounds.RunAsync(
                rounds, measurements.Length, "echo", "evaluation", () => (() => CallsAsync(plain, requests), () => CallsAsync(real, requests)));
        }
    }

    private static async Task<EvaluateSpecimensResponse> CallsAsync(EvaluationService.EvaluationServiceClient client, EvaluateSpecimensRequest[] requests)
    {
        EvaluateSpecimensResponse? last = null;
        foreach (var request in requests)
        {
            last = await client.EvaluateSpecimensAsync(request);
        }

        return last!;
    }
}

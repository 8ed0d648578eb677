using ClearView.Benchmarks.Measuring;
using ClearView.Benchmarks.Posting;
using ClearView.V1;

using Method = ClearView.V1.Method;

namespace ClearView.Benchmarks.Evaluating;

/// <summary>Evaluation without storing, beside an echo of the same messages on the same kind of socket: singly, and in batches.</summary>
/// <remarks>Both ends share the process, and both sides have the contract's own client without anything around it.</remarks>
internal static class EvaluateStreamLoad
{
    private const int HazemeterCount = 20_000;
    private const int SpectralCount = 2_000;
    private const int BatchSize = 100;

    // Until then the runtime still compiles what it finds busy, of either side.
    private const int UntimedRounds = 8;

    /// <summary>Runs rounds and prints readings per second and their ratio.</summary>
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
        var small = Enumerable.Range(0, HazemeterCount)
            .Select(i => PostedHazemeter.Measurement(i, film.Measurement.MeasuredAt.ToDateTimeOffset(), "line 3", "L-7")).ToArray();
        var spectral = Enumerable.Range(0, SpectralCount).Select(i => PostedFilm.Post(i).Measurement).ToArray();
        await BatchesAsync("hazemeter readings", small, PostedHazemeter.Method);
        await BatchesAsync("2 x 81 points, spectra left out of the answer", spectral, film.Method);
        await SinglesAsync("hazemeter readings", small, PostedHazemeter.Method);
        await SinglesAsync("2 x 81 points, spectra left out of the answer", spectral, film.Method);

        async Task SinglesAsync(string name, Measurement[] measurements, Method method)
        {
            EvaluateManyRequest[] requests = [.. measurements.Select((measurement, i) => new EvaluateManyRequest
            {
                CorrelationId = FormattableString.Invariant($"{i}"), Measurement = measurement, Method = method, OmitSpectra = true,
            })];
            answers.Evaluation = (await RunAsync(real)).Evaluation;
            await WarmAsync(() => RunAsync(plain), () => RunAsync(real));
            Console.WriteLine();
            Console.WriteLine(FormattableString.Invariant(
                $"EvaluateMany, {name}: {requests[0].CalculateSize()} bytes per request, {answers.Evaluation.CalculateSize()} per evaluation; {requests.Length} messages per round"));
            await AlternatingRounds.RunAsync(
                rounds, requests.Length, "echo", "evaluation", () => (() => RunAsync(plain), () => RunAsync(real)));

            async Task<EvaluateManyResponse> RunAsync(EvaluationService.EvaluationServiceClient client)
            {
                using var call = client.EvaluateMany();
                return await MessageStream.RunAsync(
                    call, requests, (request, answer) => answer.Evaluation is not null && answer.CorrelationId == request.CorrelationId);
            }
        }

        async Task BatchesAsync(string name, Measurement[] measurements, Method method)
        {
            EvaluateBatchesRequest[] requests = [.. measurements.Chunk(BatchSize).Select((batch, i) => new EvaluateBatchesRequest
            {
                CorrelationId = FormattableString.Invariant($"{i}"), Measurements = { batch }, Method = method, OmitSpectra = true,
            })];
            answers.Batch = await RunAsync(real);
            await WarmAsync(() => RunAsync(plain), () => RunAsync(real));
            Console.WriteLine();
            Console.WriteLine(FormattableString.Invariant(
                $"EvaluateBatches, {BatchSize} of {name} per message: {requests[0].CalculateSize()} bytes per request, {answers.Batch.CalculateSize()} per answer; {measurements.Length} readings per round; rates are readings"));
            await AlternatingRounds.RunAsync(
                rounds, measurements.Length, "echo", "evaluation", () => (() => RunAsync(plain), () => RunAsync(real)));

            async Task<EvaluateBatchesResponse> RunAsync(EvaluationService.EvaluationServiceClient client)
            {
                using var call = client.EvaluateBatches();
                return await MessageStream.RunAsync(call, requests, (request, answer) =>
                    answer.CorrelationId == request.CorrelationId
                    && answer.Outcomes.Count == request.Measurements.Count
                    && answer.Outcomes.All(outcome => outcome.Evaluation is not null));
            }
        }
    }

    private static async Task WarmAsync(Func<Task> plain, Func<Task> real)
    {
        for (var round = 0; round < UntimedRounds; round++)
        {
            await plain();
            await real();
        }
    }
}

namespace ClearView.Benchmarks.Measuring;

/// <summary>One thing that the load program measures.</summary>
/// <param name="Name">Its word on the command line.</param>
/// <param name="Arguments">What may follow.</param>
/// <param name="Description">What it measures, in a line.</param>
/// <param name="RunAsync">Measures, and prints.</param>
internal sealed record LoadMode(string Name, string Arguments, string Description, Func<IReadOnlyList<string>, Task> RunAsync);

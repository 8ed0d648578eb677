namespace ClearView.Console.Commands;

/// <summary>The command line asks for something that does not go together. The message says what would.</summary>
/// <param name="message">In plain words.</param>
internal sealed class UsageException(string message) : Exception(message);

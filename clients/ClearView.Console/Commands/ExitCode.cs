namespace ClearView.Console.Commands;

/// <summary>What the exit code tells a script.</summary>
internal static class ExitCode
{
    /// <summary>Everything asked for was done, and every limit was kept.</summary>
    public const int Ok = 0;

    /// <summary>Everything was done, but a limit was not kept or could not be judged.</summary>
    public const int LimitFailed = 1;

    /// <summary>The command line, a file or a measurement is not right.</summary>
    public const int BadInput = 2;

    /// <summary>The server could not be reached, or failed.</summary>
    public const int ServerFault = 3;

    /// <summary>The user stopped it.</summary>
    public const int Stopped = 130;

    /// <summary>The codes as they stand in every help text.</summary>
    public const string Help = """
          0  done, and every limit was kept
          1  done, but a limit failed, or could not be judged
          2  the command line, a file or a measurement is not right
          3  the server could not be reached, or failed
        """;
}

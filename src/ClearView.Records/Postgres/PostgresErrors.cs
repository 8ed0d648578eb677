using System.Data.Common;

using Npgsql;

namespace ClearView.Records.Postgres;

/// <summary>What an error of the database means.</summary>
internal static class PostgresErrors
{
    /// <summary>
    /// Whether the error is of what was handed in: data that the types refuse (class 22), a constraint (23), a size (54), a
    /// trigger's own refusal (P0001), or anything that did not come from the database at all.
    /// </summary>
    public static bool IsOfOneWrite(Exception error) => error switch
    {
        _ when IsOfChain(error) || IsOfMissingPart(error) => false,
        PostgresException refused => refused.SqlState is PostgresErrorCodes.RaiseException
            || refused.SqlState.StartsWith("22", StringComparison.Ordinal)
            || refused.SqlState.StartsWith("23", StringComparison.Ordinal)
            || refused.SqlState.StartsWith("54", StringComparison.Ordinal),
        DbException or IOException or TimeoutException or System.Net.Sockets.SocketException => false,
        _ => true,
    };

    /// <summary>Whether two transactions stood in each other's way, so that the same again may succeed.</summary>
    public static bool IsConflict(Exception error) =>
        IsOfChain(error) || IsOfMissingPart(error) || error is PostgresException { SqlState: PostgresErrorCodes.DeadlockDetected or PostgresErrorCodes.SerializationFailure };

    /// <summary>Whether somebody else wrote the next link of the chain, so that the writer has to take another chain.</summary>
    public static bool IsOfChain(Exception error) =>
        error is PostgresException { SqlState: PostgresErrorCodes.UniqueViolation, ConstraintName: "link_place" };

    /// <summary>Whether the part of a month is gone that the writer knew of: it was retired meanwhile, and another one has to be made.</summary>
    public static bool IsOfMissingPart(Exception error) =>
        error is PostgresException { SqlState: PostgresErrorCodes.CheckViolation, TableName: "reading" or "series_value" };

    /// <summary>Whether the connection is gone, or the database ended it: another one may serve.</summary>
    public static bool IsOfConnection(Exception error) => error is PostgresException refused
        ? refused.SqlState is PostgresErrorCodes.AdminShutdown or PostgresErrorCodes.CrashShutdown or PostgresErrorCodes.CannotConnectNow
        : IsOfDatabase(error);

    /// <summary>Whether the error is the database's, or of the way to it.</summary>
    public static bool IsOfDatabase(Exception error) =>
        error is DbException or IOException or TimeoutException or System.Net.Sockets.SocketException;
}

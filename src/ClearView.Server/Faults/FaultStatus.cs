using ClearView.Records.Model;
using ClearView.Server.Mapping;
using ClearView.Server.Receiving;

using Grpc.Core;

namespace ClearView.Server.Faults;

/// <summary>What goes wrong in a call, as a status that gives away nothing of the server's inside.</summary>
internal static class FaultStatus
{
    /// <summary>The status.</summary>
    /// <param name="error">What went wrong; no <see cref="RpcException"/>.</param>
    /// <param name="method">Full name of the rpc.</param>
    /// <param name="logger">Takes the detail.</param>
    /// <param name="gone">Fires when the client has gone.</param>
    public static RpcException Of(Exception error, string method, ILogger logger, CancellationToken gone)
    {
        // A client that went away makes reads and writes fail in several ways; none of them is a fault of the server.
        if (gone.IsCancellationRequested && error is OperationCanceledException or IOException or InvalidOperationException)
        {
            return Status(StatusCode.Cancelled, "The call was cancelled.");
        }

        if (error is DocumentNotFoundException)
        {
            return Status(StatusCode.NotFound, error.Message);
        }

        if (error is MalformedMessageException malformed)
        {
            return FieldFaults.Invalid([malformed.Violation]);
        }

        if (error is StoreUnavailableException)
        {
            FaultLog.StoreUnavailable(logger, error, method);
            return Status(StatusCode.Unavailable, "The store is not available now; trying again is safe.");
        }

        if (error is ObjectDisposedException { ObjectName: nameof(IStore) })
        {
            return Status(StatusCode.Unavailable, "The server is stopping; trying again is safe.");
        }

        var reference = Guid.NewGuid().ToString("N")[..12];
        FaultLog.Unexpected(logger, error, method, reference);
        return Status(StatusCode.Internal, $"Internal error. The server's log has the detail under {reference}.");
    }

    private static RpcException Status(StatusCode code, string detail) => new(new Status(code, detail));
}

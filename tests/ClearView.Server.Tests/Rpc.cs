using Google.Rpc;

using Grpc.Core;

namespace ClearView.Server.Tests;

/// <summary>Calls that are expected to fail.</summary>
internal static class Rpc
{
    /// <summary>The failure of a call, after checking its code and that it shows nothing of the server's inside.</summary>
    public static async Task<RpcException> FailsAsync<T>(StatusCode code, AsyncUnaryCall<T> call)
    {
        var error = await Assert.ThrowsAsync<RpcException>(() => call.ResponseAsync);
        Assert.Equal(code, error.StatusCode);
        Assert.DoesNotContain("   at ", error.Status.Detail, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", error.Status.Detail, StringComparison.Ordinal);
        return error;
    }

    /// <summary>The fields that a failed call names, with what it says of them.</summary>
    public static async Task<Dictionary<string, string>> FaultsAsync<T>(StatusCode code, AsyncUnaryCall<T> call)
    {
        var error = await FailsAsync(code, call);
        var badRequest = error.GetRpcStatus()?.GetDetail<BadRequest>();
        Assert.NotNull(badRequest);
        Assert.All(badRequest.FieldViolations, violation => Assert.NotEmpty(violation.Description));
        return badRequest.FieldViolations.ToDictionary(violation => violation.Field, violation => violation.Description);
    }
}

using ClearView.Contract.Validation;
using ClearView.Server.Faults;
using ClearView.Server.Mapping;
using ClearView.Server.Security;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Services;

/// <summary>Keys, on the wire.</summary>
internal sealed class AccessGrpcService(KeyBook book, KeyCache cache, TimeProvider clock, ILogger<AccessGrpcService> logger)
    : AccessService.AccessServiceBase
{
    public override async Task<CreateKeyResponse> CreateKey(CreateKeyRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var now = clock.GetUtcNow();
        var (key, secret) = KeyRequests.Read(request, Caller.Of(context).Name, now, violations);
        FieldFaults.ThrowIfAny(violations);
        if (!await book.TryAddAsync(key).ConfigureAwait(false))
        {
            throw new RpcException(new Status(StatusCode.AlreadyExists, $"A key has or had the name {key.Name}; names are not used again."));
        }

        cache.Forget();
        SecurityLog.KeyMade(logger, key.Name, key.Role, key.CreatedBy);
        return new CreateKeyResponse { Key = key.ToKey(now), Secret = secret };
    }

    public override async Task<ListKeysResponse> ListKeys(ListKeysRequest request, ServerCallContext context)
    {
        var ring = await book.ReadAsync(context.CancellationToken).ConfigureAwait(false);
        var now = clock.GetUtcNow();
        return new ListKeysResponse { Keys = { ring.Keys.OrderBy(key => key.Name, StringComparer.Ordinal).Select(key => key.ToKey(now)) } };
    }

    public override async Task<RevokeKeyResponse> RevokeKey(RevokeKeyRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        MethodNameRules.Check(request.Name, "name", violations);
        FieldFaults.ThrowIfAny(violations);
        var ring = await book.ReadAsync(context.CancellationToken).ConfigureAwait(false);
        var key = ring.FindByName(request.Name) ?? throw new DocumentNotFoundException($"There is no key {request.Name}.");
        var now = clock.GetUtcNow();
        if (key.RevokedAt is null)
        {
            key = await book.RevokeAsync(key, Caller.Of(context).Name, now).ConfigureAwait(false);
            SecurityLog.KeyRevoked(logger, key.Name, key.RevokedBy);
        }

        cache.Forget();
        return new RevokeKeyResponse { Key = key.ToKey(now) };
    }
}

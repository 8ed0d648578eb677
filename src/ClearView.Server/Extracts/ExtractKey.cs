using System.Security.Cryptography;

using ClearView.Server.Configuration;

using Grpc.Core;

namespace ClearView.Server.Extracts;

/// <summary>The private key that signs extracts. It is read at each use, so that a new file needs no restart.</summary>
internal sealed class ExtractKey(ServerOptions options)
{
    private const string CurveP256 = "1.2.840.10045.3.1.7";
    private const string HowToMake = "Make one with: openssl ecparam -name prime256v1 -genkey -noout -out audit-key.pem";

    /// <summary>Opens it.</summary>
    /// <exception cref="RpcException">FAILED_PRECONDITION: there is none, or it cannot be used; the message says how to make one.</exception>
    public ECDsa Open()
    {
        if (options.AuditKeyFile is not { } path)
        {
            throw Missing("The server has no key to sign with. " + HowToMake + " and start the server with --audit-key-file audit-key.pem");
        }

        var key = ECDsa.Create();
        try
        {
            key.ImportFromPem(File.ReadAllText(path));
            return key.ExportParameters(includePrivateParameters: true).Curve.Oid.Value == CurveP256
                ? key
                : throw Missing("The key of the server is on another curve than P-256. " + HowToMake);
        }
        catch (Exception error)
        {
            key.Dispose();
            throw error is IOException or UnauthorizedAccessException or ArgumentException or CryptographicException
                ? Missing("The key of the server cannot be read as a private key in PEM. " + HowToMake)
                : error;
        }
    }

    private static RpcException Missing(string why) => new(new Status(StatusCode.FailedPrecondition, why));
}

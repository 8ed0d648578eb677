using System.Buffers.Binary;
using System.Buffers.Text;
using System.Text;

using ClearView.Contract.Validation;
using ClearView.V1;

namespace ClearView.Server.Mapping;

/// <summary>Page tokens of lists of methods: the last method shown, bound to whether all versions are listed.</summary>
/// <remarks>Layout: version (1 byte), all versions (1), version of the method (4), its name in ASCII, as base64url.</remarks>
internal static class MethodPageTokens
{
    private const byte Version = 2;
    private const int NameOffset = 6;
    private const int LongestName = 60;

    /// <summary>The token that continues a list behind a method.</summary>
    public static string Write(MethodName last, bool allVersions)
    {
        Span<byte> token = stackalloc byte[NameOffset + LongestName];
        token[0] = Version;
        token[1] = allVersions ? (byte)1 : (byte)0;
        BinaryPrimitives.WriteUInt32BigEndian(token[2..], last.Version);
        var length = Encoding.ASCII.GetBytes(last.Name, token[NameOffset..]);
        return Base64Url.EncodeToString(token[..(NameOffset + length)]);
    }

    /// <summary>Reads the token of a request.</summary>
    /// <param name="request">The request.</param>
    /// <param name="last">The method to go on behind, where the token is valid.</param>
    /// <param name="problem">What is wrong, where it is not.</param>
    /// <returns>Whether the token is valid and belongs to the request.</returns>
    public static bool TryRead(ListMethodsRequest request, out MethodName last, out string problem)
    {
        last = new MethodName();
        problem = "is not a token of this server; pass next_page_token on as it came.";
        Span<byte> token = stackalloc byte[NameOffset + LongestName];
        if (!Base64Url.IsValid(request.PageToken, out var length) || length <= NameOffset || length > token.Length)
        {
            return false;
        }

        Base64Url.DecodeFromChars(request.PageToken, token);
        last.Version = BinaryPrimitives.ReadUInt32BigEndian(token[2..]);
        last.Name = Encoding.ASCII.GetString(token[NameOffset..length]);
        var violations = new Violations();
        MethodNameRules.Check(last.Name, "name", violations);
        if (token[0] != Version || token[1] > 1 || last.Version == 0 || !violations.IsEmpty)
        {
            return false;
        }

        if (token[1] == 1 != request.AllVersions)
        {
            problem = "belongs to another choice of all_versions; repeat that of the first page.";
            return false;
        }

        return true;
    }
}

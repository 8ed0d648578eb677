using System.Buffers.Binary;
using System.Buffers.Text;
using System.Text;

using ClearView.Contract.Validation;
using ClearView.Records.Model;

namespace ClearView.Server.Mapping;

/// <summary>Page tokens of lists of documents: the last document shown, bound to its kind and to whether all versions are listed.</summary>
/// <remarks>Layout: version (1 byte), kind (1), all versions (1), version of the document (4), its name in ASCII, as base64url.</remarks>
internal static class VersionPageTokens
{
    private const byte Version = 3;
    private const int AllVersionsOffset = 2;
    private const int DocumentVersionOffset = 3;
    private const int NameOffset = 7;
    private const int LongestName = 60;

    /// <summary>The token that continues a list behind a document.</summary>
    public static string Write(VersionPosition last, VersionedKind kind, bool allVersions)
    {
        Span<byte> token = stackalloc byte[NameOffset + LongestName];
        token[0] = Version;
        token[1] = (byte)kind;
        token[AllVersionsOffset] = allVersions ? (byte)1 : (byte)0;
        BinaryPrimitives.WriteUInt32BigEndian(token[DocumentVersionOffset..], (uint)last.Version);
        var length = Encoding.ASCII.GetBytes(last.Name, token[NameOffset..]);
        return Base64Url.EncodeToString(token[..(NameOffset + length)]);
    }

    /// <summary>Reads the token of a request.</summary>
    /// <param name="text">The token.</param>
    /// <param name="kind">The kind of documents that are listed.</param>
    /// <param name="allVersions">Whether all versions are.</param>
    /// <param name="last">The document to go on behind, where the token is valid.</param>
    /// <param name="problem">What is wrong, where it is not.</param>
    /// <returns>Whether the token is valid and belongs to the request.</returns>
    public static bool TryRead(string text, VersionedKind kind, bool allVersions, out VersionPosition last, out string problem)
    {
        last = default;
        problem = "is not a token of this server; pass next_page_token on as it came.";
        Span<byte> token = stackalloc byte[NameOffset + LongestName];
        if (!Base64Url.IsValid(text, out var length) || length <= NameOffset || length > token.Length)
        {
            return false;
        }

        Base64Url.DecodeFromChars(text, token);
        last = new VersionPosition(
            Encoding.ASCII.GetString(token[NameOffset..length]), BinaryPrimitives.ReadUInt32BigEndian(token[DocumentVersionOffset..]));
        var violations = new Violations();
        MethodNameRules.Check(last.Name, "name", violations);
        if (token[0] != Version || token[1] != (byte)kind || token[AllVersionsOffset] > 1 || last.Version == 0 || !violations.IsEmpty)
        {
            return false;
        }

        if (token[AllVersionsOffset] == 1 != allVersions)
        {
            problem = "belongs to another choice of all_versions; repeat that of the first page.";
            return false;
        }

        return true;
    }
}

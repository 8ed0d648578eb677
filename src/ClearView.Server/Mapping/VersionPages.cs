using ClearView.Contract.Validation;
using ClearView.Records.Model;

namespace ClearView.Server.Mapping;

/// <summary>Requests for a page of documents to queries of the store, and the token of the page after.</summary>
internal static class VersionPages
{
    /// <summary>Clients accept 4 MB by default; a page ends before that.</summary>
    public const int MaxPageBytes = 3_500_000;

    private const int DefaultPageSize = 100;
    private const int MaxPageSize = 1000;

    /// <summary>Reads the fields that every such request has.</summary>
    /// <param name="kind">The kind of documents.</param>
    /// <param name="pageSize">The field page_size.</param>
    /// <param name="pageToken">The field page_token.</param>
    /// <param name="allVersions">The field all_versions.</param>
    /// <param name="violations">Takes every field at fault.</param>
    /// <returns>The query; meaningful only where no violation was added.</returns>
    public static VersionQuery Read(VersionedKind kind, int pageSize, string pageToken, bool allVersions, Violations violations)
    {
        if (pageSize is < 0 or > MaxPageSize)
        {
            violations.Add("page_size", $"was {pageSize}; expected 1 to {MaxPageSize}, or 0 for {DefaultPageSize}.");
        }

        VersionPosition? after = null;
        if (pageToken.Length > 0)
        {
            if (VersionPageTokens.TryRead(pageToken, kind, allVersions, out var last, out var problem))
            {
                after = last;
            }
            else
            {
                violations.Add("page_token", $"{problem}");
            }
        }

        return new VersionQuery
        {
            AllVersions = allVersions,
            PageSize = pageSize <= 0 ? DefaultPageSize : pageSize,

            // The page ends with the document that passes the bound; a chart of many phases takes a megabyte.
            MaxPayloadBytes = MaxPageBytes / 2,
            After = after,
        };
    }

    /// <summary>The token of the page after; "" on the last one.</summary>
    public static string NextToken(VersionPage page, VersionedKind kind, bool allVersions)
    {
        if (!page.HasMore)
        {
            return "";
        }

        var last = page.Versions[^1];
        return VersionPageTokens.Write(new VersionPosition(last.Entry.Name, last.Version), kind, allVersions);
    }
}

using System.Data.Common;

using ClearView.Records.Sql;

namespace ClearView.Records.Audit;

/// <summary>Texts of codes and codes of texts, as they stand in the store; the last few thousand are remembered.</summary>
/// <param name="connection">A connection within a transaction.</param>
/// <param name="transaction">The transaction.</param>
internal sealed class LabelTexts(DbConnection connection, DbTransaction? transaction)
{
    private const int MostCached = 10_000;

    private readonly Dictionary<long, string?> _texts = [];
    private readonly Dictionary<string, long?> _codes = new(StringComparer.Ordinal);

    /// <summary>The text of a code.</summary>
    public string? TextOf(long code)
    {
        if (!_texts.TryGetValue(code, out var text))
        {
            Bound(_texts);
            text = Scalar("SELECT text FROM label WHERE code = @value", code) as string;
            _texts.Add(code, text);
        }

        return text;
    }

    /// <summary>The code of a text.</summary>
    public long? CodeOf(string text)
    {
        if (!_codes.TryGetValue(text, out var code))
        {
            Bound(_codes);
            code = Scalar("SELECT code FROM label WHERE text = @value", text) as long?;
            _codes.Add(text, code);
        }

        return code;
    }

    private static void Bound<TKey, TValue>(Dictionary<TKey, TValue> cache)
        where TKey : notnull
    {
        if (cache.Count >= MostCached)
        {
            cache.Clear();
        }
    }

    private object? Scalar(string sql, object value)
    {
        using var command = Commands.Make(connection, sql);
        command.Transaction = transaction;
        command.Add("@value", value);
        return command.ExecuteScalar();
    }
}

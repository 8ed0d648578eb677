namespace ClearView.Records.Postgres;

/// <summary>Keys of the locks that servers of one database agree on; each is eight letters, by their bytes.</summary>
internal static class AdvisoryLocks
{
    /// <summary>Held while the schema is brought forward ("CLRVSCHM").</summary>
    public const long Schema = 0x434C_5256_5343_484D;

    /// <summary>Held while documents are stored, so that versions have neither gaps nor twins ("CLRVDOCS").</summary>
    public const long Documents = 0x434C_5256_444F_4353;

    /// <summary>Held while parts of tables are made or taken out ("CLRVMNTH"); ensure_month knows it too.</summary>
    public const long Months = 0x434C_5256_4D4E_5448;

    /// <summary>First half of the keys of chains, whose second half is the number of the chain ("CLNK"); held by the one who writes it.</summary>
    public const int Chains = 0x434C_4E4B;
}

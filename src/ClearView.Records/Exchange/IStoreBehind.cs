using ClearView.Records.Sql;

namespace ClearView.Records.Exchange;

/// <summary>A store whose rows can be copied.</summary>
internal interface IStoreBehind
{
    /// <summary>What is behind the store.</summary>
    IStoreDatabase Database { get; }
}

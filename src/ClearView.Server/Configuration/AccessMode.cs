namespace ClearView.Server.Configuration;

/// <summary>Who may call the server.</summary>
public enum AccessMode
{
    /// <summary>Whoever reaches the address may do everything. Only for loopback addresses.</summary>
    Open,

    /// <summary>Callers identify themselves by a key or a client certificate, and may do what its role allows.</summary>
    Keys,
}

using ClearView.V1;

namespace ClearView.Server.Security;

/// <summary>Roles in words.</summary>
internal static class RoleNames
{
    /// <summary>The word for a role.</summary>
    public static string Of(Role role) => role switch
    {
        Role.Line => "line",
        Role.Engineer => "engineer",
        Role.Lab => "lab",
        Role.Administrator => "administrator",
        _ => "unknown",
    };
}

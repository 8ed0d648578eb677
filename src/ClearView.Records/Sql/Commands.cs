using System.Data.Common;

namespace ClearView.Records.Sql;

/// <summary>Commands of either engine.</summary>
internal static class Commands
{
    /// <summary>Makes a command of a constant of ours.</summary>
    public static DbCommand Make(DbConnection connection, string sql)
    {
        var command = connection.CreateCommand();
#pragma warning disable CA2100 // Statements are our own constants; every value travels as a parameter.
        command.CommandText = sql;
#pragma warning restore CA2100
        return command;
    }

    /// <summary>Adds a parameter with its value; <see langword="null"/> is the absent value.</summary>
    public static void Add(this DbCommand command, string name, object? value)
    {
        var parameter = command.CreateParameter();
        parameter.ParameterName = name;
        parameter.Value = value ?? DBNull.Value;
        command.Parameters.Add(parameter);
    }
}

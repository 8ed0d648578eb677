using System.Text.RegularExpressions;

using ClearView.V1;

namespace ClearView.Contract.Validation;

/// <summary>Rules for the names of methods.</summary>
public static partial class MethodNameRules
{
    /// <summary>Checks the name of a method.</summary>
    /// <param name="name">The name as it came.</param>
    /// <param name="path">Path of the field, for violations.</param>
    /// <param name="violations">Takes what is at fault.</param>
    public static void Check(string name, string path, Violations violations)
    {
        ArgumentNullException.ThrowIfNull(name);
        ArgumentNullException.ThrowIfNull(violations);
        const string expected = "expected 1 to 60 characters: letters of a-z, digits, \"-\" and \".\", beginning with a letter";
        if (name.Length == 0)
        {
            violations.Add(path, $"was empty; {expected}.");
        }
        else if (name.Length > 60)
        {
            violations.Add(path, $"had {name.Length} characters; {expected}.");
        }
        else if (!Name().IsMatch(name))
        {
            violations.Add(path, $"was \"{name}\"; {expected}.");
        }
    }

    /// <summary>Checks a name with its version.</summary>
    /// <param name="name">Name and version as they came; <see langword="null"/> is a violation.</param>
    /// <param name="path">Path of the field, for violations.</param>
    /// <param name="violations">Takes what is at fault.</param>
    public static void Check(MethodName? name, string path, Violations violations)
    {
        ArgumentNullException.ThrowIfNull(violations);
        if (name is null)
        {
            violations.Add(path, $"was missing; expected the name of a method.");
            return;
        }

        Check(name.Name, $"{path}.name", violations);
    }

    // \z, since $ would let a line feed pass at the end.
    [GeneratedRegex(@"\A[a-z][a-z0-9.\-]*\z", RegexOptions.CultureInvariant)]
    private static partial Regex Name();
}

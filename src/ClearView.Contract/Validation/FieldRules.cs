using System.Runtime.CompilerServices;

namespace ClearView.Contract.Validation;

/// <summary>Rules that many fields share.</summary>
public static class FieldRules
{
    /// <summary>Most characters of a text, unless told otherwise.</summary>
    public const int LongestText = 100;

    // Squares of larger figures, and sums of them, would leave the range of numbers; no appearance measurement comes near.
    private const double LargestFigure = 1e15;

    internal static void RequireText(this Violations violations, FieldPath field, string value, int longest = LongestText)
    {
        if (string.IsNullOrWhiteSpace(value))
        {
            violations.Add(field.ToString(), $"was empty; expected 1 to {longest} characters.");
            return;
        }

        violations.CheckText(field, value, longest);
    }

    /// <summary>A text on one line, up to so many characters; it may be empty.</summary>
    /// <param name="violations">Takes what is at fault.</param>
    /// <param name="field">Path of the field.</param>
    /// <param name="value">The text.</param>
    /// <param name="longest">Most characters.</param>
    public static void CheckText(this Violations violations, FieldPath field, string value, int longest = LongestText)
    {
        ArgumentNullException.ThrowIfNull(violations);
        ArgumentNullException.ThrowIfNull(value);
        if (value.Length > longest)
        {
            violations.Add(field.ToString(), $"had {value.Length} characters; expected at most {longest}.");
        }

        int control = value.AsSpan().IndexOfAnyInRange('\0', '\u001F');
        if (control >= 0)
        {
            violations.Add(field.ToString(), $"had a control character (U+{(int)value[control]:X4}) at position {control}; expected text on one line.");
        }
    }

    /// <summary>A number in a closed interval.</summary>
    internal static void RequireWithin(this Violations violations, FieldPath field, double value, double least, double most, string unit)
    {
        if (!(value >= least && value <= most))
        {
            violations.Add(field.ToString(), $"was {value}; expected {least} to {most} {unit}.");
        }
    }

    /// <summary>A figure in any unit.</summary>
    public static bool RequireFigure(this Violations violations, FieldPath field, double value)
    {
        if (IsFigure(value))
        {
            return true;
        }

        violations.Add(field.ToString(), $"was {value}; expected a finite number, {LargestFigure:0} at most in size.");
        return false;
    }

    /// <summary>A figure above 0, in any unit.</summary>
    public static bool RequirePositiveFigure(this Violations violations, FieldPath field, double value)
    {
        if (value >= 1 / LargestFigure && value <= LargestFigure)
        {
            return true;
        }

        violations.Add(field.ToString(), $"was {value}; expected {1 / LargestFigure} to {LargestFigure:0}.");
        return false;
    }

    /// <summary>Whether a number can be a figure in any unit.</summary>
    public static bool IsFigure(double value) => Math.Abs(value) <= LargestFigure;

    /// <summary>A number above 0, up to a limit.</summary>
    internal static void RequirePositive(this Violations violations, FieldPath field, double value, double most, string unit)
    {
        if (!(value > 0 && value <= most))
        {
            violations.Add(field.ToString(), $"was {value}; expected above 0 and at most {most} {unit}.");
        }
    }

    /// <summary>A named value of an enumeration: neither UNSPECIFIED nor unknown.</summary>
    internal static bool RequireNamed<TEnum>(this Violations violations, FieldPath field, TEnum value)
        where TEnum : struct, Enum
    {
        int number = Unsafe.As<TEnum, int>(ref value);
        if (number != 0 && Enum.IsDefined(value))
        {
            return true;
        }

        string sent = number == 0 ? "UNSPECIFIED" : $"the unknown number {number}";
        violations.Add(field.ToString(), $"was {sent}; expected one of {string.Join(", ", ProtoEnumNames.Of<TEnum>())}.");
        return false;
    }
}

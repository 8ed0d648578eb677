using System.Collections.Immutable;

using ClearView.V1;

namespace ClearView.Contract;

/// <summary>The method that a request chose, by itself or by a name; or why there is none.</summary>
public sealed class MethodChoice
{
    private MethodChoice(Method? method, MethodName? name, ImmutableArray<FieldViolation> violations)
    {
        Method = method;
        Name = name;
        Violations = violations;
    }

    /// <summary>The method, not yet checked; <see langword="null"/> when there are violations.</summary>
    public Method? Method { get; }

    /// <summary>The name and version that it was found under; <see langword="null"/> where the request brought the method itself.</summary>
    public MethodName? Name { get; }

    /// <summary>Every field at fault in the choice itself.</summary>
    public ImmutableArray<FieldViolation> Violations { get; }

    /// <summary>A method that the request brought.</summary>
    /// <param name="method">The method; <see langword="null"/> is a violation of "method_choice".</param>
    public static MethodChoice Given(Method? method) =>
        method is null
            ? Refused([new FieldViolation { Field = "method_choice", Description = "was missing; expected method or method_name." }])
            : new(method, null, []);

    /// <summary>A method that was found under a name.</summary>
    /// <param name="method">The method.</param>
    /// <param name="name">Its name and version, above 0.</param>
    public static MethodChoice Found(Method method, MethodName name)
    {
        ArgumentNullException.ThrowIfNull(method);
        ArgumentNullException.ThrowIfNull(name);
        return new(method, name, []);
    }

    /// <summary>No method.</summary>
    /// <param name="violations">Why, at least one.</param>
    /// <exception cref="ArgumentException">There are no violations.</exception>
    public static MethodChoice Refused(ImmutableArray<FieldViolation> violations) =>
        violations.IsDefaultOrEmpty
            ? throw new ArgumentException("A choice without a method needs a reason.", nameof(violations))
            : new(null, null, violations);
}

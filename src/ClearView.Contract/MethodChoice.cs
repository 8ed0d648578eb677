using System.Collections.Immutable;

using ClearView.Contract.Mapping;
using ClearView.Contract.Validation;
using ClearView.V1;

namespace ClearView.Contract;

/// <summary>The method that a request chose, by itself or by a name; or why there is none.</summary>
public sealed class MethodChoice
{
    private ReadMethod? _read;

    private MethodChoice(Method? method, MethodName? name, ImmutableArray<FieldViolation> violations)
    {
        Method = method;
        Name = name;
        Violations = violations;
    }

    /// <summary>The method, not yet checked, nor to be changed any more; <see langword="null"/> when there are violations.</summary>
    public Method? Method { get; }

    /// <summary>The name and version that it was found under; <see langword="null"/> where the request brought the method itself.</summary>
    public MethodName? Name { get; }

    /// <summary>Every field at fault in the choice itself.</summary>
    public ImmutableArray<FieldViolation> Violations { get; }

    /// <summary>Reads the method, once however many measurements are evaluated under the choice.</summary>
    /// <param name="violations">Takes what is at fault in the choice or in the method.</param>
    /// <returns>The method; <see langword="null"/> when something is at fault.</returns>
    internal Optics.Evaluations.Method? Read(Violations violations)
    {
        // Two threads may both read it: they find the same.
        (Optics.Evaluations.Method? method, Violations found) = _read ??= Read();
        violations.AddAll(found);
        return method;
    }

    private ReadMethod Read()
    {
        var found = new Violations();
        foreach (FieldViolation violation in Violations)
        {
            found.Add(violation.Field, $"{violation.Description}");
        }

        return new ReadMethod(Method is null ? null : MethodReader.Read(Method, "method", found), found);
    }

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

    private sealed record ReadMethod(Optics.Evaluations.Method? Method, Violations Found);
}

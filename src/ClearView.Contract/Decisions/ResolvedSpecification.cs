using ClearView.V1;

namespace ClearView.Contract.Decisions;

/// <summary>A specification that can decide: checked, its method found, its reference colour in the method.</summary>
/// <remarks>Made by <see cref="SpecificationReader"/> only. It is shared: do not change its messages.</remarks>
public sealed class ResolvedSpecification
{
    internal ResolvedSpecification(
        Specification wire, SpecificationName? name, Quality.Specifications.Specification domain, Quality.Specifications.DecisionRule rule, Method method)
    {
        Wire = wire;
        Name = name;
        Domain = domain;
        Rule = rule;
        Method = method;
    }

    /// <summary>The specification on the wire, with the version of its method filled in.</summary>
    public Specification Wire { get; }

    /// <summary>Name and version that it is stored under; <see langword="null"/> where a request brought it.</summary>
    public SpecificationName? Name { get; }

    /// <summary>The method that values are evaluated under, with the reference colour of the specification where it has one.</summary>
    public Method Method { get; }

    /// <summary>The method as the choice of a request.</summary>
    public MethodChoice MethodChoice => MethodChoice.Found(Method, Wire.MethodName);

    /// <summary>The specification in the terms of the domain.</summary>
    internal Quality.Specifications.Specification Domain { get; }

    /// <summary>The rule that decides.</summary>
    internal Quality.Specifications.DecisionRule Rule { get; }
}

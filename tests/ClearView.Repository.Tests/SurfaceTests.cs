using System.Reflection;
using System.Runtime.CompilerServices;

using ClearView.Repository.Tests.Support;

namespace ClearView.Repository.Tests;

/// <summary>What the assemblies show to their users.</summary>
public sealed class SurfaceTests
{
    private const BindingFlags Declared =
        BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly;

    private static IEnumerable<Type> PublicTypes => ProductAssemblies.All.SelectMany(Public);

    // The assemblies that turn spectra into numbers: nothing in them changes after it is made.
    private static IEnumerable<Type> PureTypes =>
        new[] { "ClearView.Optics", "ClearView.Contract" }.Select(ProductAssemblies.Load).SelectMany(Public);

    [Fact]
    public void Assemblies_AreAllLoaded() => Assert.True(ProductAssemblies.All.Count >= 7);

    [Fact]
    public void InternalFolder_HoldsNoPublicType() =>
        Findings.AssertNone(
            "Public, though its folder says internal:",
            PublicTypes.Where(type => type.Namespace!.Split('.').Contains("Internal")).Select(type => type.FullName!));

    [Fact]
    public void PublicClass_IsSealedStaticOrAbstract() =>
        Findings.AssertNone(
            "Open for inheritance by accident:",
            PublicTypes.Where(type => type is { IsClass: true, IsSealed: false, IsAbstract: false }).Select(type => type.FullName!));

    // The compiler puts an interpolated string together part by part, in a struct that has to change meanwhile.
    [Fact]
    public void PublicStruct_IsReadOnly() =>
        Findings.AssertNone(
            "A struct that can change:",
            PublicTypes
                .Where(type => type is { IsValueType: true, IsEnum: false }
                    && !type.IsDefined(typeof(IsReadOnlyAttribute), inherit: false)
                    && !type.IsDefined(typeof(InterpolatedStringHandlerAttribute), inherit: false))
                .Select(type => type.FullName!));

    [Fact]
    public void PublicField_IsConstantOrReadOnly() =>
        Findings.AssertNone(
            "A field that anyone can change:",
            from type in PublicTypes
            where !type.IsEnum
            from field in type.GetFields(Declared)
            where field is { IsInitOnly: false, IsLiteral: false } || field.FieldType.IsArray
            select $"{type.FullName}.{field.Name}");

    [Fact]
    public void PureType_HasNoSetters() =>
        Findings.AssertNone(
            "A property that can be set after construction:",
            from type in PureTypes
            from property in type.GetProperties(Declared)
            where property.SetMethod is { IsPublic: true } setter && !IsInitOnly(setter)
            select $"{type.FullName}.{property.Name}");

    [Fact]
    public void PureType_HasNoPropertyThatItsReaderCouldChange() =>
        Findings.AssertNone(
            "A collection that one reader could change for everyone else (a method may give a new array each time):",
            from type in PureTypes
            from property in type.GetProperties(Declared)
            where IsMutableCollection(property.PropertyType)
            select $"{type.FullName}.{property.Name}: {property.PropertyType}");

    [Fact]
    public void PureType_TakesNoArray() =>
        Findings.AssertNone(
            "A parameter that the caller could change afterwards, or that forces an array on the caller:",
            from type in PureTypes
            from method in type.GetMethods(Declared).Cast<MethodBase>().Concat(type.GetConstructors(Declared))
            from parameter in method.GetParameters()
            where parameter.ParameterType != typeof(object) && IsMutableCollection(parameter.ParameterType)
            select $"{type.FullName}.{method.Name}: {parameter.Name}");

    private static IEnumerable<Type> Public(Assembly assembly) => assembly.WrittenTypes().Where(type => type.IsVisible);

    private static bool IsInitOnly(MethodInfo setter) =>
        setter.ReturnParameter.GetRequiredCustomModifiers().Contains(typeof(IsExternalInit));

    private static bool IsMutableCollection(Type type) =>
        type.IsArray
        || (type.IsGenericType && new[] { typeof(List<>), typeof(IList<>), typeof(Dictionary<,>), typeof(IDictionary<,>), typeof(HashSet<>), typeof(Memory<>) }
            .Contains(type.GetGenericTypeDefinition()));
}

using ClearView.V1;

using Spectre.Console;

using Measurand = ClearView.Optics.Evaluations.Measurand;

namespace ClearView.Console.Rendering.Decisions;

/// <summary>Specifications and references under names.</summary>
internal static class SpecificationScreen
{
    /// <summary>Writes one specification in full.</summary>
    public static void Write(Screen screen, NamedSpecification named)
    {
        MethodPanel.WriteRows(screen,
        [
            ("Specification", DecisionText.Name(named.SpecificationName)),
            ("Description", named.Description),
            ("Stored", $"{SpecimenDetail.Time(named.StoredAt)} by {named.StoredBy}"),
        ]);
        Write(screen, named.Specification);
    }

    /// <summary>Writes what a specification says.</summary>
    public static void Write(Screen screen, Specification specification)
    {
        List<(string Label, string Text)> rows =
        [
            ("Product", $"{specification.Product} ({Kind(specification.ProductKind)})"),
            ("Method", DecisionText.Versioned(specification.MethodName.Name, specification.MethodName.Version)),
            ("Specimens", $"the mean of {VerdictText.Counted((int)specification.RequiredSpecimenCount, "specimen")}"),
            ("Decision rule", DecisionText.Rule(specification.DecisionRule)),
        ];
        if (specification.Limits.FirstOrDefault(limit => limit.ReferenceName is not null || limit.ReferenceColour is not null) is { } against)
        {
            var name = against.ReferenceName is { } reference ? DecisionText.Versioned(reference.Name, reference.Version) : "a colour of its own";
            rows.Add(("Reference", against.ReferenceColour is { } colour ? $"{name}: {DecisionText.Colour(colour)}" : name));
        }
        MethodPanel.WriteRows(screen, rows);
        var table = new DataTable().Text("Measurand").Numbers("Lower", "Upper", "Target").Words("Unit");
        foreach (var limit in specification.Limits)
        {
            var measurand = Measurand.TryFind(limit.Measurand, out var found) ? found : null;
            table.Row(
                Markup.Escape(measurand?.Name ?? limit.Measurand),
                limit.HasLower ? NumberText.Plain(limit.Lower) : "-",
                limit.HasUpper ? NumberText.Plain(limit.Upper) : "-",
                limit.HasTarget ? NumberText.Plain(limit.Target) : "-",
                measurand?.Unit ?? "");
        }
        table.Write(screen);
    }

    /// <summary>Writes a list of specifications.</summary>
    public static void WriteList(Screen screen, IReadOnlyCollection<NamedSpecification> specifications)
    {
        if (specifications.Count == 0)
        {
            screen.Line("No specification is stored.");
            return;
        }
        var table = new DataTable().Words("Name").Numbers("Version").Text("Product").Text("Limits").Text("Description").Text("Stored");
        foreach (var one in specifications)
        {
            table.Row(
                NameText.Of(screen, one.SpecificationName.Name),
                NumberText.Plain(one.SpecificationName.Version),
                Markup.Escape(one.Specification.Product),
                Markup.Escape(string.Join("\n", one.Specification.Limits.Select(DecisionText.Limit))),
                Markup.Escape(one.Description),
                Markup.Escape($"{SpecimenDetail.Time(one.StoredAt)} by {one.StoredBy}"));
        }
        table.Write(screen);
    }

    /// <summary>Writes one reference in full.</summary>
    public static void Write(Screen screen, NamedReference reference) => MethodPanel.WriteRows(screen,
    [
        ("Reference", DecisionText.Versioned(reference.ReferenceName.Name, reference.ReferenceName.Version)),
        ("Description", reference.Description),
        ("Colour", $"{DecisionText.Colour(reference.Colour)} ({MethodText.ShortPair(reference.LightAndObserver)})"),
        ("Reading ID", reference.ReadingId),
        ("Stored", $"{SpecimenDetail.Time(reference.StoredAt)} by {reference.StoredBy}"),
    ]);

    /// <summary>Writes a list of references.</summary>
    public static void WriteList(Screen screen, IReadOnlyCollection<NamedReference> references)
    {
        if (references.Count == 0)
        {
            screen.Line("No reference is stored.");
            return;
        }
        var table = new DataTable().Words("Name").Numbers("Version", "L*", "a*", "b*").Words("Light").Text("Description").Text("Stored");
        foreach (var one in references)
        {
            table.Row(
                NameText.Of(screen, one.ReferenceName.Name),
                NumberText.Plain(one.ReferenceName.Version),
                NumberText.Fixed(one.Colour.LStar, 2),
                NumberText.Fixed(one.Colour.AStar, 2),
                NumberText.Fixed(one.Colour.BStar, 2),
                Markup.Escape(MethodText.ShortPair(one.LightAndObserver)),
                Markup.Escape(one.Description),
                Markup.Escape($"{SpecimenDetail.Time(one.StoredAt)} by {one.StoredBy}"));
        }
        table.Write(screen);
    }

    private static string Kind(ProductKind kind) => kind switch
    {
        ProductKind.Film => "film or sheet",
        ProductKind.Bottle => "bottle or container",
        _ => "kind not stated",
    };
}

using ClearView.Optics.Colorimetry;
using ClearView.Optics.Tests.Reference;
using ClearView.Optics.Transmission;
using ClearView.Optics.Transmission.Conformity;

namespace ClearView.Optics.Tests.Documentation;

/// <summary>Computes the worked example of docs/methods/conformity.md, which was derived by hand.</summary>
public sealed class ConformityExampleTests
{
    [Fact]
    public void Conformity()
    {
        WorkedExample page = WorkedExample.Read("conformity.md", "conformity");
        double port = page.Given("port");
        double portAreaPercent = 100 * page.Given("ports") * port * port / 4 / Math.Pow(page.Given("sphere"), 2);
        var conditions = new RecordedConditions
        {
            TemperatureC = page.Given("temperature"),
            HumidityPercent = page.Given("humidity"),
            ConditioningHours = page.Given("hours"),
            SpecimenCount = (int)page.Given("specimens"),
            SpecimenExtentMm = page.Given("extent"),
            PortDiameterMm = port,
            PortAreaPercent = portAreaPercent,
        };
        int Count(RecordedConditions recorded, ConformityOutcome outcome) => ConformityStatement
            .Of(HazeStandard.Iso14782WithIso13468Part2, LightAndObserver.D65Degree2, Haze.FromPercent(page.Given("haze")), recorded)
            .Count(finding => finding.Outcome == outcome);

        page.Shows("port_area", portAreaPercent);
        page.Shows("met", Count(conditions, ConformityOutcome.Met));
        page.Shows("not_met", Count(conditions, ConformityOutcome.NotMet));
        RecordedConditions silent = conditions with { HumidityPercent = null };
        page.Shows("met_without_humidity", Count(silent, ConformityOutcome.Met));
        page.Shows("not_met_without_humidity", Count(silent, ConformityOutcome.NotMet));
        page.Shows("not_recorded_without_humidity", Count(silent, ConformityOutcome.NotRecorded));
        page.HasNoOtherFigures();
    }

    // The page's table has one row per finding, in order, with the requirements of both standards.
    [Fact]
    public void Table_NamesTheClausesThatAreChecked()
    {
        string[][] rows =
        [
            .. File.ReadAllLines(RepositoryRoot.PathOf("docs/methods/conformity.md"))
                .Where(line => line.StartsWith("| ", StringComparison.Ordinal))
                .Skip(2)
                .Select(line => line.Split(" | ")),
        ];

        foreach (HazeStandard standard in new[] { HazeStandard.AstmD1003ProcedureB, HazeStandard.Iso14782WithIso13468Part1 })
        {
            var findings = ConformityStatement.Of(standard, standard.NamedPairs[0], null, new RecordedConditions());

            Assert.Equal(findings.Length, rows.Length);
            Assert.All(findings.Zip(rows), pair => Assert.Contains(pair.Second[0].TrimStart('|', ' '), pair.First.Clause, StringComparison.Ordinal));
        }
    }
}

using ClearView.Client.Files;
using ClearView.V1;

namespace ClearView.Client.Tests.Files;

public class SampleFileTests
{
    [Fact]
    public void Read_TotalAndDiffuse_FillsScansConditionsAndIdentification()
    {
        var specimen = Assert.Single(ScanFileReader.Read(Sample.Path("film-total-diffuse.csv"), ScanFileOptions.None));

        Assert.Equal(18, specimen.Line);
        Assert.Empty(specimen.Notes);
        var scans = specimen.Measurement.Scans.Normalised;
        Assert.Equal(TransmittanceUnit.Percent, scans.TransmittanceUnit);
        Assert.Equal(new RegularGrid { StartNm = 380, StepNm = 5, Count = 81 }, scans.Grid.Regular);
        Assert.Equal(81, scans.TotalTransmittance.Count);
        Assert.Equal(85.10, scans.TotalTransmittance[0]);
        Assert.Equal(81, scans.DiffuseTransmittance.Count);
        Assert.Equal(
            new Conditions
            {
                Instrument = "lab sphere 2",
                ApertureMm = 25,
                UvFilter = UvFilter.None,
                Geometry = Geometry.DirectionalToSphere,
                Operator = "E. Marsh",
                ThicknessUm = 38,
                ConditioningTemperatureC = 23,
                ConditioningHumidityPercent = 50,
                ConditioningHours = 48,
            },
            specimen.Measurement.Conditions);
        Assert.Equal(
            new Identification
            {
                Line = "3",
                Product = "clear lidding 38",
                Lot = "R-2207",
                Roll = "14",
                Specimen = "F-0012",
                Web = new WebPosition { AcrossMm = 620, AlongM = 1800 },
            },
            specimen.Measurement.Identification);
        Assert.Equal(new DateTime(2026, 3, 2, 6, 15, 0, DateTimeKind.Utc), specimen.Measurement.MeasuredAt.ToDateTime());
    }

    [Fact]
    public void Read_KeysOfSpecimenAndPorts_AreConditions()
    {
        var specimen = Assert.Single(Sample.Read(
            Sample.Keys + "# specimen_count: 3\n# specimen_extent_mm: 50\n# port_diameter_mm: 25.4\n# port_area_percent: 3.5\nnm,total (%)\n400,91\n410,92\n"));

        var conditions = specimen.Measurement.Conditions;
        Assert.Equal((3u, 50, 25.4, 3.5), (conditions.SpecimenCount, conditions.SpecimenExtentMm, conditions.PortDiameterMm, conditions.PortAreaPercent));
    }

    [Fact]
    public void Read_SemicolonDecimalCommaWithMarkAndCrlf_ReadsFractionsAndOffset()
    {
        var specimen = Assert.Single(ScanFileReader.Read(Sample.Path("film-semicolon-decimal-comma.csv"), ScanFileOptions.None));

        var scans = specimen.Measurement.Scans.Normalised;
        Assert.Equal(TransmittanceUnit.Fraction, scans.TransmittanceUnit);
        Assert.Equal(new RegularGrid { StartNm = 380, StepNm = 10, Count = 41 }, scans.Grid.Regular);
        Assert.Equal(0.851, scans.TotalTransmittance[0]);
        Assert.Equal(38.5, specimen.Measurement.Conditions.ThicknessUm);
        Assert.Equal(UvFilter.Cutoff400Nm, specimen.Measurement.Conditions.UvFilter);
        Assert.Equal("Überzug 38", specimen.Measurement.Identification.Product);
        Assert.Equal(new DateTime(2026, 3, 2, 6, 20, 0, DateTimeKind.Utc), specimen.Measurement.MeasuredAt.ToDateTime());
    }

    [Fact]
    public void Read_SphereReadingsDescendingInUtf16_AreReversed()
    {
        var specimen = Assert.Single(ScanFileReader.Read(Sample.Path("film-sphere-tab-utf16-descending.csv"), ScanFileOptions.None));

        var scans = specimen.Measurement.Scans.Sphere;
        Assert.Equal(new RegularGrid { StartNm = 380, StepNm = 10, Count = 41 }, scans.Grid.Regular);
        Assert.Equal(50000, scans.IncidentReading[0]);
        Assert.Equal(66000, scans.IncidentReading[^1]);
        Assert.Equal(120, scans.InstrumentScatterReading[0]);
        Assert.Equal(41, scans.TotalReading.Count);
        Assert.Equal(41, scans.SpecimenScatterReading.Count);
    }

    [Fact]
    public void Read_WideForm_GivesOneMeasurementPerSpecimen()
    {
        var specimens = ScanFileReader.Read(Sample.Path("bottles-wide.csv"), ScanFileOptions.None);

        Assert.Equal(["B-01", "B-02"], specimens.Select(specimen => specimen.Measurement.Identification.Specimen));
        Assert.All(specimens, specimen => Assert.Equal(
            new WallPosition { Region = WallRegion.Panel, HeightMm = 85 }, specimen.Measurement.Identification.Wall));
        Assert.Equal(87.98, specimens[0].Measurement.Scans.Normalised.TotalTransmittance[^1], 0.02);
        Assert.NotEqual(
            specimens[0].Measurement.Scans.Normalised.TotalTransmittance,
            specimens[1].Measurement.Scans.Normalised.TotalTransmittance);
    }

    [Fact]
    public void Read_HazemeterReadings_GivesOneMeasurementPerRow()
    {
        var specimens = ScanFileReader.Read(Sample.Path("hazemeter.csv"), ScanFileOptions.None);

        Assert.Equal([10, 11, 12, 13], specimens.Select(specimen => specimen.Line));
        Assert.Equal(
            new HazemeterReadings { IncidentReading = 100, TotalReading = 91.6, InstrumentScatterReading = 0.6, SpecimenScatterReading = 3.95 },
            specimens[3].Measurement.Scans.Hazemeter);
        Assert.Equal(38.6, specimens[3].Measurement.Conditions.ThicknessUm);
        Assert.Equal(1400, specimens[3].Measurement.Identification.Web.AcrossMm);
        Assert.Equal("H-04", specimens[3].Measurement.Identification.Specimen);
    }
}

using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;
using ClearView.V1;

namespace ClearView.Plotting.Tests.Charts;

public sealed class ChromaticityChartTests
{
    // Chromaticities of CIE 15, printed to four decimals, from memory.
    private const double PrintedTolerance = 0.0001;

    [Theory]
    [InlineData("D65", 0.3127, 0.3290)]
    [InlineData("A", 0.4476, 0.4074)]
    [InlineData("C", 0.3101, 0.3162)]
    public void Build_WhitePoint_IsThatOfCie15(string illuminant, double x, double y)
    {
        ChartModel chart = ChromaticityChart.Build([SampleReadings.Film(method: SampleReadings.Method(colourIlluminant: illuminant))]);

        foreach (PanelModel panel in chart.Panels)
        {
            ChartPoint white = Assert.Single(Assert.Single(panel.Series, s => s.Label.StartsWith("white point", StringComparison.Ordinal)).Points);
            Assert.Equal(x, white.X, PrintedTolerance);
            Assert.Equal(y, white.Y, PrintedTolerance);
        }
    }

    [Fact]
    public void Build_Locus_PassesThroughThePrintedSpectralColours()
    {
        SeriesModel locus = Whole(SampleReadings.Film()).Series[0];

        // CIE 15, 2° observer, from memory: 520 nm and 700 nm.
        AssertNear(locus.Points[520 - 380], 0.0743, 0.8338);
        AssertNear(locus.Points[^1], 0.7347, 0.2653);
    }

    [Fact]
    public void Build_PurpleLine_ClosesTheLocus()
    {
        PanelModel whole = Whole(SampleReadings.Film());

        Assert.Equal([whole.Series[0].Points[^1], whole.Series[0].Points[0]], whole.Series[1].Points);
        Assert.NotEqual(whole.Series[0].Look.Line, whole.Series[1].Look.Line);
    }

    [Fact]
    public void Build_YellowFilm_DrawsTheLineThroughItToTheLocus()
    {
        ChartReading reading = SampleReadings.Film(blueLossPercent: 40, specimen: "S3");
        double printed = reading.Evaluation.Values.Single(value => value.Measurand == "dominant_wavelength").Value;
        PanelModel whole = Whole(reading);

        SeriesModel line = Assert.Single(whole.Series, s => s.Label.StartsWith("dominant wavelength", StringComparison.Ordinal));
        Assert.Contains(FormattableString.Invariant($"{printed:0.0} nm"), line.Label, StringComparison.Ordinal);
        Assert.Contains("S3", line.Label, StringComparison.Ordinal);
        ChartPoint specimen = whole.Series.Single(s => s.Label == "specimen S3").Points[0];
        (ChartPoint white, ChartPoint boundary) = (line.Points[0], line.Points[^1]);
        double cross = ((specimen.X - white.X) * (boundary.Y - white.Y)) - ((specimen.Y - white.Y) * (boundary.X - white.X));
        Assert.Equal(0, cross, 12);
    }

    [Fact]
    public void Build_PurpleFilm_ShowsTheComplementaryWavelengthOnTheOtherSide()
    {
        ChartReading reading = Purple();
        SeriesModel line = Assert.Single(Whole(reading).Series, s => s.Label.StartsWith("complementary wavelength", StringComparison.Ordinal));

        Assert.Equal(3, line.Points.Length);
        // The green end stands above the white point, the purple end beneath it.
        Assert.True(line.Points[0].Y > line.Points[1].Y);
        Assert.True(line.Points[2].Y < line.Points[1].Y);
    }

    [Fact]
    public void Build_Film_EnlargesAroundWhitePointAndSpecimen()
    {
        PanelModel zoom = ChromaticityChart.Build([SampleReadings.Film(blueLossPercent: 1)]).Panels[1];

        Assert.True(zoom.X.Maximum - zoom.X.Minimum < 0.02);
        foreach (ChartPoint point in zoom.Series.Where(s => s.Look.Mark != MarkKind.None).SelectMany(s => s.Points))
        {
            Assert.InRange(point.X, zoom.X.Minimum, zoom.X.Maximum);
            Assert.InRange(point.Y, zoom.Y.Minimum, zoom.Y.Maximum);
        }
    }

    [Fact]
    public void Build_Wavelengths_AreNamedAlongTheLocus()
    {
        PanelModel whole = Whole(SampleReadings.Film());

        Assert.Contains(whole.Annotations, annotation => annotation.Text == "520");
        Assert.Contains(whole.Annotations, annotation => annotation.Text == "380 nm");
        Assert.True(whole.EqualScale);
    }

    [Fact]
    public void Build_TenDegreeObserver_HasItsOwnLocus()
    {
        ChartReading ten = SampleReadings.Film(method: SampleReadings.Method(colourObserver: Observer.Cie196410Deg));

        Assert.NotEqual(Whole(SampleReadings.Film()).Series[0].Points[100], Whole(ten).Series[0].Points[100]);
    }

    [Fact]
    public void Build_Empty_IsRefused() => Assert.Throws<ChartRefusedException>(() => ChromaticityChart.Build([]));

    private static ChartReading Purple()
    {
        ChartReading reading = SampleReadings.Film();
        NormalisedScans scans = reading.Measurement.Scans.Normalised;
        for (int i = 0; i < scans.TotalTransmittance.Count; i++)
        {
            double nm = 380 + (10 * i);
            scans.TotalTransmittance[i] = nm is > 490 and < 590 ? 30 : 90;
            scans.DiffuseTransmittance[i] = 1;
        }

        Evaluation evaluation = Contract.MeasurementEvaluator.Evaluate(reading.Measurement, SampleReadings.Method(), TimeProvider.System).Evaluation!;
        return reading with { Evaluation = evaluation };
    }

    private static PanelModel Whole(ChartReading reading) => ChromaticityChart.Build([reading]).Panels[0];

    private static void AssertNear(ChartPoint point, double x, double y)
    {
        Assert.Equal(x, point.X, PrintedTolerance);
        Assert.Equal(y, point.Y, PrintedTolerance);
    }
}

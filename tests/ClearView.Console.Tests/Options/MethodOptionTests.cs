using System.Text.Json.Nodes;

using ClearView.Console.Commands;
using ClearView.V1;

namespace ClearView.Console.Tests.Options;

/// <summary>What each option makes of a method, and how each refuses.</summary>
public sealed class MethodOptionTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-option-tests-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Theory]
    [InlineData("--method astm --illuminant d50", "D50", Observer.Cie19312Deg, "D50", Observer.Cie196410Deg, "--yellowness none")]
    [InlineData("--method astm --observer 10", "C", Observer.Cie196410Deg, "D65", Observer.Cie196410Deg, "")]
    [InlineData("--method astm --illuminant planckian-3000K", "planckian-3000K", Observer.Cie19312Deg, "planckian-3000K", Observer.Cie196410Deg, "--yellowness none")]
    [InlineData("--method astm --illuminant daylight-5200K --colour D65/10", "daylight-5200K", Observer.Cie19312Deg, "D65", Observer.Cie196410Deg, "")]
    [InlineData("--method astm --luminous FL11/2", "FL11", Observer.Cie19312Deg, "D65", Observer.Cie196410Deg, "")]
    [InlineData("--haze-standard iso-14782-13468-1 --illuminant D65 --observer 2", "D65", Observer.Cie19312Deg, "D65", Observer.Cie19312Deg, "")]
    public async Task Lights_AreStatedForBothOrEach(
        string line, string luminous, Observer luminousObserver, string colour, Observer colourObserver, string more)
    {
        var method = await ResolveAsync($"{line} {more}");

        Assert.Equal((luminous, luminousObserver), (method.Luminous.Illuminant, method.Luminous.Observer));
        Assert.Equal((colour, colourObserver), (method.Colour.Illuminant, method.Colour.Observer));
    }

    [Fact]
    public async Task Lamp_LightsBothOrTheNamedPair()
    {
        var lamp = Write("shelf.csv", "wavelength (nm),power\n400,0.1\n450,1\n500,0.9\n550,0.8\n600,0.7\n650,0.5\n700,0.4\n");

        var both = await ResolveAsync($"--method astm --lamp {lamp} --yellowness none");
        var one = await ResolveAsync($"--method astm --lamp {lamp} --luminous lamp/2");

        Assert.Equal(("shelf", "shelf"), (both.Luminous.Illuminant, both.Colour.Illuminant));
        Assert.Equal([0.1, 1, 0.9, 0.8, 0.7, 0.5, 0.4], both.Colour.SpectralPower.RelativePower);
        Assert.Equal([400, 450, 500, 550, 600, 650, 700], both.Luminous.SpectralPower.WavelengthNm);
        Assert.Equal(("shelf", "D65"), (one.Luminous.Illuminant, one.Colour.Illuminant));
        Assert.Null(one.Colour.SpectralPower);
    }

    [Fact]
    public async Task Comparison_IsStated()
    {
        var method = await ResolveAsync(
            "--method astm --reference 96.5,-0.2,0.8 --difference-factors 2,1,1 --metamerism A=96.4,0.1,0.9 --initial-yellowness 0.5");

        Assert.Equal(new CielabColour { LStar = 96.5, AStar = -0.2, BStar = 0.8 }, method.ReferenceColour);
        Assert.Equal(new DifferenceFactors { Lightness = 2, Chroma = 1, Hue = 1, CmcLightness = 2, CmcChroma = 1 }, method.DifferenceFactors);
        Assert.Equal(("A", Observer.Cie196410Deg), (method.Metamerism.TestLight.Illuminant, method.Metamerism.TestLight.Observer));
        Assert.Equal(0.5, method.InitialYellownessIndex);
        Assert.Equal(1, (await ResolveAsync("--method astm --reference 90,0,0 --cmc 1:1")).DifferenceFactors.CmcLightness);
    }

    [Fact]
    public async Task BandsAndThickness_AreStated()
    {
        var method = await ResolveAsync("--method astm --band 400-450 --band 290-450 --light-barrier-limit 10 --thickness 100 --resin pmma");

        Assert.Equal([(400, 450), (290, 450)], method.Bands.Select(band => (band.FromNm, band.ToNm)));
        Assert.Equal(10, method.LightBarrierLimitPercent);
        Assert.Equal((100, "pmma"), (method.ReferenceThickness.ThicknessUm, method.ReferenceThickness.Resin));
        Assert.Equal(1.49, (await ResolveAsync("--method astm --thickness 100 --refractive-index 1.49")).ReferenceThickness.RefractiveIndex);
        var table = Write("index.csv", "400;1.51\n700;1.48\n");
        Assert.Equal([1.51, 1.48], (await ResolveAsync($"--method astm --thickness 100 --refractive-index {table}")).ReferenceThickness.Table.RefractiveIndex);
    }

    [Fact]
    public async Task Uncertainty_InlineAndFileStateTheSame()
    {
        var file = Write("errors.txt", "# from the last service\nrepeatability=0.05\nreadings=10\nzero=0.02\ndrift=0.1\nlinearity=0.05\nwavelength=0.2\nstray=0.01\nbandpass=5\n");

        var inline = await ResolveAsync(
            "--method astm --uncertainty repeatability=0.05,readings=10,zero=0.02,drift=0.1,linearity=0.05,wavelength=0.2,stray=0.01,bandpass=5 --coverage 99 --monte-carlo 7");
        var fromFile = await ResolveAsync($"--method astm --uncertainty {file}");

        var expected = new UncertaintyInputs
        {
            CoveragePercent = 99,
            RepeatabilityPercent = 0.05,
            RepeatabilityReadingCount = 10,
            ZeroOffsetPercent = 0.02,
            HundredLineDriftPercent = 0.1,
            LinearityPercent = 0.05,
            WavelengthShiftNm = 0.2,
            StrayLightPercent = 0.01,
            BandpassNm = 5,
            MonteCarlo = new MonteCarlo { Seed = 7 },
        };
        Assert.Equal(expected, inline.Uncertainty);
        expected.CoveragePercent = 95;
        expected.MonteCarlo = null;
        Assert.Equal(expected, fromFile.Uncertainty);
    }

    [Fact]
    public async Task Yellowness_TakesEveryIndex() => Assert.Equal(
        [YellownessIndex.AstmE313, YellownessIndex.Iso17223, YellownessIndex.AstmD1925],
        (await ResolveAsync("--method astm --yellowness e313,iso17223,d1925")).YellownessIndices);

    // Each error names what was given wrongly and what would be right.
    [Theory]
    [InlineData("--illuminant D93", "there are A, C, D50")]
    [InlineData("--illuminant planckian-500K", "planckian-3000K (1000-25000 K)")]
    [InlineData("--observer 4", "write 2 or 10")]
    [InlineData("--illuminant D50 --luminous C/2 --colour D65/10", "--illuminant has nothing to state")]
    [InlineData("--observer 2 --luminous C/2 --colour D65/10", "--observer has nothing to state")]
    [InlineData("--illuminant A", "does not hold together: yellowness_indices")]
    [InlineData("--colour lamp/10", "--lamp FILE does not give")]
    [InlineData("--lamp nothing.csv", "no such file")]
    [InlineData("--lamp clearview.deps.json --illuminant A", "--lamp and --illuminant both")]
    [InlineData("--lamp clearview.deps.json --luminous C/2 --colour D65/10", "--lamp has nothing to light")]
    [InlineData("--lamp clearview.deps.json", "two columns: wavelength in nm, relative power")]
    [InlineData("--reference 90,1", "write L*,a*,b*")]
    [InlineData("--reference 300,0,0", "reference_colour.l_star")]
    [InlineData("--difference-factors 1,1,1", "give --reference L,a,b too")]
    [InlineData("--reference 90,0,0 --difference-factors 0,1,1", "each above 0 up to 10")]
    [InlineData("--cmc 2:1", "--cmc needs a colour")]
    [InlineData("--reference 90,0,0 --cmc 2,1", "write l:c")]
    [InlineData("--metamerism A=90,0,0", "--metamerism needs a colour")]
    [InlineData("--reference 90,0,0 --metamerism A", "write ILLUMINANT=L*,a*,b*")]
    [InlineData("--initial-yellowness much", "write a number from -1000 to 1000")]
    [InlineData("--yellowness none --initial-yellowness 1", "initial_yellowness_index")]
    [InlineData("--yellowness e314", "e313, d1925, iso17223")]
    [InlineData("--band 450-400", "ascending within 200-1100")]
    [InlineData("--band 400", "write FROM-TO in nm")]
    [InlineData("--light-barrier-limit 0", "above 0 up to 100")]
    [InlineData("--light-barrier-limit 101", "above 0 up to 100")]
    [InlineData("--thickness 100", "--thickness needs a refractive index")]
    [InlineData("--thickness -1 --resin pet", "write a thickness in µm")]
    [InlineData("--resin pet", "--resin needs a thickness")]
    [InlineData("--refractive-index 1.5", "--refractive-index needs a thickness")]
    [InlineData("--thickness 100 --resin teak", "there are pmma, pc")]
    [InlineData("--thickness 100 --resin pet --refractive-index 1.5", "both state the refractive index")]
    [InlineData("--thickness 100 --refractive-index 0.9", "above 1 up to 3")]
    [InlineData("--coverage 95", "--coverage needs the errors")]
    [InlineData("--monte-carlo 7", "--monte-carlo needs the errors")]
    [InlineData("--uncertainty zero=0.1 --coverage 100", "above 0 and below 100")]
    [InlineData("--uncertainty zero=0.1 --monte-carlo x", "write a whole number as seed")]
    [InlineData("--uncertainty zero", "no such file")]
    [InlineData("--uncertainty zero=a", "is not KEY=NUMBER")]
    [InlineData("--uncertainty zero=0.1,zero=0.2", "zero is given twice")]
    [InlineData("--uncertainty zero=-1", "write a standard uncertainty from 0 to 100")]
    [InlineData("--uncertainty nought=1", "is no source; keys are repeatability")]
    [InlineData("--uncertainty zero=0", "no source is above 0")]
    [InlineData("--uncertainty zero=1,readings=5", "give repeatability too")]
    [InlineData("--uncertainty repeatability=1,readings=1.5", "whole number of 2 or more")]
    [InlineData("--method Astm", "write a name, or NAME@VERSION")]
    [InlineData("--method astm@2", "has no version 2")]
    [InlineData("--method line-3", "needs --server")]
    public async Task Refused_SaysWhatWouldBeRight(string options, string expected)
    {
        var method = options.StartsWith("--method", StringComparison.Ordinal) ? "" : "--method astm ";

        var run = await ConsoleRun.RunAsync($"evaluate Samples/film-total-diffuse.csv {method}{options}");

        Assert.Equal(ExitCode.BadInput, run.ExitCode);
        Assert.Equal("", run.Output);
        Assert.Contains("error:", run.Errors, StringComparison.Ordinal);
        Assert.Contains(expected, string.Join(' ', run.Errors.Split([' ', '\n'], StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Thickness_OfAScanWithoutOne_IsRefusedWithTheField()
    {
        var bare = Write("bare.csv", "# specimen: X\nwavelength (nm),total (%)\n" + string.Concat(Enumerable.Range(0, 9).Select(i => $"{380 + (i * 50)},90\n")));

        var run = await ConsoleRun.RunAsync(
            $"evaluate {bare} --method astm --thickness 100 --resin pet --set instrument=bench --set aperture_mm=20 --set uv_filter=none --set geometry=0:d --set operator=EM --set measured_at=2026-03-02T06:00:00Z --accept-gaps");

        Assert.Equal(ExitCode.BadInput, run.ExitCode);
        Assert.Contains("thickness_um", run.Errors, StringComparison.Ordinal);
    }

    private string Write(string name, string text)
    {
        var path = Path.Combine(_folder.FullName, name);
        File.WriteAllText(path, text);
        return path;
    }

    // By way of the JSON, as a script gets it.
    private static async Task<Method> ResolveAsync(string options)
    {
        var run = await ConsoleRun.RunAsync($"evaluate Samples/film-total-diffuse.csv {options} --json");
        Assert.True(run.Output.Length > 0, run.Errors);
        return Google.Protobuf.JsonParser.Default.Parse<Method>(JsonNode.Parse(run.Output)!["method"]!.ToJsonString());
    }
}

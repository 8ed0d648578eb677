using ClearView.Optics.Colorimetry;
using ClearView.Optics.Spectra;
using ClearView.Optics.Tests.Reference;

namespace ClearView.Optics.Tests.Colorimetry;

/// <summary>The embedded CIE tables against the Debian package colord-data, figure by figure.</summary>
public sealed class CieTablesTests
{
    [Theory]
    [InlineData("cie-1931-2deg-5nm.csv", "cmf/CIE1931-2deg-XYZ.cmf", 1, 95)]
    [InlineData("cie-1964-10deg-5nm.csv", "cmf/CIE1964-10deg-XYZ.cmf", 1, 95)]
    [InlineData("cie-daylight-components-5nm.csv", "ref/CIE-1986-daylight-SPD.cmf", 1, 107)]
    [InlineData("cie-illuminant-a-5nm.csv", "illuminant/CIE-A.sp", 100, 107)]
    [InlineData("cie-illuminant-c-5nm.csv", "illuminant/CIE-C.sp", 100, 81)]
    [InlineData("cie-illuminant-d65-5nm.csv", "illuminant/CIE-D65.sp", 100, 107)]
    public void Table_IsThatOfColordData(string ours, string theirs, int scale, int shared)
    {
        Spectrum[] table = CieTables.Read(ours);
        ColordTable reference = ColordTable.Read(theirs);

        Assert.Equal(reference.Rows.Length, table.Length);
        int compared = 0;
        for (int i = 0; i < reference.WavelengthsNm.Length; i++)
        {
            double nm = (double)reference.WavelengthsNm[i];
            int at = table[0].Grid.IndexAtOrBelow(nm);
            if (at < 0 || table[0].Grid[at] != nm)
            {
                continue;
            }

            compared++;
            for (int row = 0; row < table.Length; row++)
            {
                // Both are the same printed figure, so that they agree to the last bit.
                Assert.Equal((double)(reference.Rows[row][i] * scale), table[row][at]);
            }
        }

        Assert.Equal(shared, compared);
    }

    // colord-data leaves out 360-375 nm of illuminant C. From memory of the table in CIE 15.
    [Fact]
    public void IlluminantC_Below380Nm_IsThatOfCie15()
    {
        Spectrum table = CieTables.Read("cie-illuminant-c-5nm.csv")[0];

        Assert.Equal(360, table.Grid.FirstNm);
        Assert.Equal([12.9, 17.2, 21.4, 27.5, 33], table.Values[..5].ToArray());
    }

    [Fact]
    public void Read_MissingTable_Fails() => Assert.Throws<InvalidOperationException>(() => CieTables.Read("no-such-table.csv"));
}

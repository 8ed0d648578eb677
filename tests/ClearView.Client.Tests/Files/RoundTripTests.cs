using System.Globalization;
using System.Text;

using ClearView.Client.Files;
using ClearView.V1;

using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;

namespace ClearView.Client.Tests.Files;

/// <summary>What is written in any accepted form is read back bit for bit; and whatever is read, nothing but a clear fault comes of it.</summary>
public class RoundTripTests
{
    private static readonly char[] Separators = [',', ';', '\t'];

    [Property(MaxTest = 300, Replay = "20260302,1")]
    public void Read_WhatWasWritten_IsTheSame(PositiveInt size, PositiveInt seed)
    {
        var random = new System.Random(seed.Get);
        var count = 2 + (size.Get % 80);
        var separator = Separators[random.Next(3)];
        var mark = separator != ',' && random.Next(2) == 0 ? ',' : '.';
        var descending = random.Next(2) == 0;
        var stepNm = random.Next(1, 8) * 0.5;
        double[] wavelengthsNm = [.. Enumerable.Range(0, count).Select(i => 300 + (i * stepNm))];
        double[] total = [.. wavelengthsNm.Select(_ => (random.NextDouble() * 120) - 5)];
        double[] diffuse = [.. wavelengthsNm.Select(_ => random.NextDouble() * Math.Pow(10, random.Next(-6, 2)))];
        var text = Write(wavelengthsNm, total, diffuse, separator, mark, descending, random.Next(2) == 0 ? "\n" : "\r\n");

        var scans = Assert.Single(Sample.Read(text)).Measurement.Scans.Normalised;

        Assert.Equal(new RegularGrid { StartNm = 300, StepNm = stepNm, Count = (uint)count }, scans.Grid.Regular);
        Assert.Equal(total, scans.TotalTransmittance);
        Assert.Equal(diffuse, scans.DiffuseTransmittance);
    }

    [Property(MaxTest = 300, Replay = "20260302,1")]
    public void Read_AnyBytes_GivesMeasurementsOrAFault(byte[] bytes) => ReadOrFault(bytes);

    [Property(MaxTest = 300, Replay = "20260302,1")]
    public void Read_AnyTextBelowAHeader_GivesMeasurementsOrAFault(string? text) =>
        ReadOrFault(Encoding.UTF8.GetBytes(Sample.Keys + "wavelength (nm);total (%)\n" + text));

    [Property(MaxTest = 500, Replay = "20260302,1")]
    public Property Read_DamagedFile_GivesMeasurementsOrAFault()
    {
        var whole = File.ReadAllBytes(Sample.Path("film-total-diffuse.csv"));
        return Prop.ForAll(
            ArbMap.Default.ArbFor<(ushort At, byte By, ushort Cut)>(),
            damage =>
            {
                var bytes = whole[..(whole.Length - (damage.Cut % 600))];
                bytes[damage.At % bytes.Length] = damage.By;
                ReadOrFault(bytes);
            });
    }

    [Fact]
    public void Read_VeryLongCell_IsRefusedWithoutItsText()
    {
        var fault = Sample.Fault(Sample.Keys + "nm,total (%)\n400," + new string('9', 100_000) + "\n410,1\n");

        Assert.Equal(Sample.KeyLines + 2, fault.Line);
        Assert.True(fault.Message.Length < 300, fault.Message);
    }

    [Fact]
    public void Read_LongestScan_IsReadAndOneMoreIsRefused()
    {
        static string Scan(int count) => Sample.Keys + "nm,total (%)\n"
            + string.Concat(Enumerable.Range(0, count).Select(i => string.Create(CultureInfo.InvariantCulture, $"{200 + (i * 0.4)},90\n")));

        Assert.Equal(2001u, Assert.Single(Sample.Read(Scan(2001))).Measurement.Scans.Normalised.Grid.Regular.Count);
        Assert.Contains("2002 wavelength(s)", Sample.Fault(Scan(2002)).Message, StringComparison.Ordinal);
    }

    private static void ReadOrFault(byte[] bytes)
    {
        try
        {
            Assert.NotEmpty(Sample.Read(bytes));
        }
        catch (ScanFileException e)
        {
            Assert.NotEmpty(e.Expected);
        }
    }

    private static string Write(double[] wavelengthsNm, double[] total, double[] diffuse, char separator, char mark, bool descending, string end)
    {
        var rows = wavelengthsNm.Select((nm, i) => string.Join(separator, new[] { nm, total[i], diffuse[i] }
            .Select(value => value.ToString("R", CultureInfo.InvariantCulture).Replace('.', mark)))).ToList();
        if (descending)
        {
            rows.Reverse();
        }
        return (Sample.Keys + string.Join(separator, "wavelength (nm)", "total (%)", "diffuse (%)") + "\n").Replace("\n", end, StringComparison.Ordinal)
            + string.Join(end, rows);
    }
}

using ClearView.V1;

namespace ClearView.Console.Options;

/// <summary>Reads what is known of an instrument's errors, such as "repeatability=0.05,zero=0.02,wavelength=0.2".</summary>
internal static class UncertaintyText
{
    private const double MostOfAny = 100;

    /// <summary>The sources, each with its unit.</summary>
    public const string Keys = "repeatability, zero, linearity (% transmittance), drift (% of the reading), stray (% of all light), wavelength, bandpass (nm), readings (number behind repeatability)";

    /// <summary>Reads the inline form or the lines of a file: KEY=VALUE, separated by commas or line ends.</summary>
    /// <param name="text">The text.</param>
    /// <param name="fault">What is wrong and what would be right, where nothing is given back.</param>
    public static UncertaintyInputs? Read(string text, out string fault)
    {
        var inputs = new UncertaintyInputs();
        var seen = new HashSet<string>(StringComparer.Ordinal);
        fault = "";
        foreach (var entry in text.Split([',', '\n', '\r'], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).Where(one => !one.StartsWith('#')))
        {
            var parts = entry.Split('=', StringSplitOptions.TrimEntries);
            if (parts.Length != 2 || Numerals.Read(parts[1]) is not { } value)
            {
                fault = $"\"{entry}\" is not KEY=NUMBER; keys are {Keys}";
            }
            else if (!seen.Add(parts[0]))
            {
                fault = $"{parts[0]} is given twice";
            }
            else if (parts[0] == "readings" ? value is < 2 or > 1_000_000 || value != Math.Floor(value) : value is < 0 or > MostOfAny)
            {
                fault = parts[0] == "readings" ? $"readings is {parts[1]}; write a whole number of 2 or more" : $"{parts[0]} is {parts[1]}; write a standard uncertainty from 0 to 100";
            }
            else if (!Set(inputs, parts[0], value))
            {
                fault = $"\"{parts[0]}\" is no source; keys are {Keys}";
            }
            if (fault.Length > 0)
            {
                return null;
            }
        }
        if (inputs.HasRepeatabilityReadingCount && inputs.RepeatabilityPercent == 0)
        {
            fault = "readings says how many readings repeatability comes from; give repeatability too";
        }
        else if (!IsAnyAboveZero(inputs))
        {
            fault = $"no source is above 0; keys are {Keys}";
        }
        return fault.Length == 0 ? inputs : null;
    }

    private static bool IsAnyAboveZero(UncertaintyInputs inputs) =>
        inputs.RepeatabilityPercent + inputs.ZeroOffsetPercent + inputs.HundredLineDriftPercent + inputs.LinearityPercent
        + inputs.WavelengthShiftNm + inputs.StrayLightPercent + inputs.BandpassNm > 0;

    private static bool Set(UncertaintyInputs inputs, string key, double value)
    {
        switch (key)
        {
            case "repeatability":
                inputs.RepeatabilityPercent = value;
                return true;
            case "readings":
                inputs.RepeatabilityReadingCount = (uint)value;
                return true;
            case "zero":
                inputs.ZeroOffsetPercent = value;
                return true;
            case "drift":
                inputs.HundredLineDriftPercent = value;
                return true;
            case "linearity":
                inputs.LinearityPercent = value;
                return true;
            case "wavelength":
                inputs.WavelengthShiftNm = value;
                return true;
            case "stray":
                inputs.StrayLightPercent = value;
                return true;
            case "bandpass":
                inputs.BandpassNm = value;
                return true;
            default:
                return false;
        }
    }
}

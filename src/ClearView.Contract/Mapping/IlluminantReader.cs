using ClearView.Contract.Validation;
using ClearView.Optics.Colorimetry;
using ClearView.Optics.Spectra;

namespace ClearView.Contract.Mapping;

/// <summary>Reads an illuminant from the wire: by name, or with a spectral power of the user's own.</summary>
internal static class IlluminantReader
{
    public static Illuminant? Read(V1.LightAndObserver light, string path, Violations violations)
    {
        if (light.SpectralPower is { } power)
        {
            return ReadOwn(light.Illuminant, power, path, violations);
        }

        if (Illuminant.TryFind(light.Illuminant, out Illuminant? illuminant))
        {
            return illuminant;
        }

        violations.Add(
            $"{path}.illuminant",
            $"was \"{light.Illuminant}\"; expected one of {string.Join(", ", Illuminant.All)}, daylight-NNNNK (4000-25000 K), planckian-NNNNK (1000-25000 K), or a name of your own with spectral_power.");
        return null;
    }

    private static Illuminant? ReadOwn(string name, V1.SpectralPower power, string path, Violations violations)
    {
        if (TableReader.Read(power.WavelengthNm, power.RelativePower, $"{path}.spectral_power", "relative_power", violations) is not { } spectrum)
        {
            return null;
        }

        try
        {
            return Illuminant.FromSpectralPower(name, spectrum);
        }
        catch (SpectrumRangeException shortRange)
        {
            violations.Add($"{path}.spectral_power", $"{shortRange.Message}");
        }
        catch (ArgumentException unusable)
        {
            violations.Add(unusable.ParamName == "name" ? $"{path}.illuminant" : $"{path}.spectral_power", $"{unusable.Message}");
        }

        return null;
    }
}

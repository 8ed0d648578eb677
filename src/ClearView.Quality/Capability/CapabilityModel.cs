namespace ClearView.Quality.Capability;

/// <summary>What the distribution of the readings is taken for.</summary>
public enum CapabilityModel
{
    /// <summary>Normal where the test does not speak against it, then Box-Cox, then percentiles.</summary>
    Automatic = 0,

    /// <summary>Normal.</summary>
    Normal = 1,

    /// <summary>Normal after a Box-Cox transformation.</summary>
    BoxCox = 2,

    /// <summary>None: percentiles of the readings themselves.</summary>
    Percentiles = 3,
}

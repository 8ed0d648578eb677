namespace ClearView.Contract.Pictures;

/// <summary>Size of a picture, or what is wrong with its frame.</summary>
/// <param name="WidthPx">Width, pixels.</param>
/// <param name="HeightPx">Height, pixels.</param>
/// <param name="Fault">What is wrong; <see langword="null"/> where nothing is.</param>
internal readonly record struct PictureFrame(uint WidthPx, uint HeightPx, string? Fault)
{
    /// <summary>A frame with something wrong.</summary>
    public static PictureFrame Faulty(string fault) => new(0, 0, fault);
}

namespace ClearView.Optics.Colorimetry;

/// <summary>A second light that a match with a reference colour is tried under (CIE 15, special metamerism index).</summary>
/// <param name="TestLight">The test illuminant with its observer.</param>
/// <param name="ReferenceColour">The reference's colour under the test light.</param>
public sealed record MetamerismTest(LightAndObserver TestLight, CieLab ReferenceColour);

using ClearView.Optics.Uncertainty;

namespace ClearView.Optics.Colorimetry;

/// <summary>Special metamerism index: change in illuminant (CIE 15).</summary>
public static class Metamerism
{
    /// <summary>ΔE*ab of two specimens under a test illuminant, after they were made to match under the reference illuminant.</summary>
    /// <remarks>A small mismatch under the reference illuminant is taken out by multiplying the specimen's tristimulus values under
    /// the test illuminant by the ratio of the reference's to its own under the reference illuminant (CIE 15, multiplicative correction).</remarks>
    /// <param name="referenceSpecimen">Tristimulus values of the first specimen under reference and test illuminant.</param>
    /// <param name="otherSpecimen">Tristimulus values of the second.</param>
    /// <param name="testWhite">White point under the test illuminant.</param>
    /// <exception cref="ArgumentException">A tristimulus value of the second specimen under the reference illuminant is not above 0.</exception>
    public static double SpecialIndex(
        (Tristimulus UnderReference, Tristimulus UnderTest) referenceSpecimen,
        (Tristimulus UnderReference, Tristimulus UnderTest) otherSpecimen,
        Tristimulus testWhite)
    {
        Tristimulus two = otherSpecimen.UnderReference;
        if (!(two.X > 0 && two.Y > 0 && two.Z > 0))
        {
            throw new ArgumentException("Tristimulus values under the reference illuminant must be above 0.", nameof(otherSpecimen));
        }

        return DualDifference.SpecialMetamerism(
            referenceSpecimen, DualTristimulus.Constant(two), DualTristimulus.Constant(otherSpecimen.UnderTest), testWhite).Value;
    }
}

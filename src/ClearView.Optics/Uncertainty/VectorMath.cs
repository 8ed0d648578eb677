using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace ClearView.Optics.Uncertainty;

/// <summary>Sums over wavelengths.</summary>
internal static class VectorMath
{
    /// <summary>Σ a·b.</summary>
    public static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        int i = 0;
        double sum = 0;
        if (Vector256.IsHardwareAccelerated)
        {
            ref double ra = ref MemoryMarshal.GetReference(a);
            ref double rb = ref MemoryMarshal.GetReference(b);
            Vector256<double> partial = default;
            for (; i + 4 <= b.Length; i += 4)
            {
                partial = Vector256.MultiplyAddEstimate(Vector256.LoadUnsafe(ref ra, (nuint)i), Vector256.LoadUnsafe(ref rb, (nuint)i), partial);
            }

            sum = Vector256.Sum(partial);
        }

        for (; i < b.Length; i++)
        {
            sum += a[i] * b[i];
        }

        return sum;
    }

    /// <summary>Σ a·b·c.</summary>
    public static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b, ReadOnlySpan<double> c)
    {
        double sum = 0;
        for (int i = 0; i < c.Length; i++)
        {
            sum += a[i] * b[i] * c[i];
        }

        return sum;
    }
}

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

    /// <summary>Σ (a·b)².</summary>
    public static double SquaredNorm(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
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
                Vector256<double> product = Vector256.LoadUnsafe(ref ra, (nuint)i) * Vector256.LoadUnsafe(ref rb, (nuint)i);
                partial = Vector256.MultiplyAddEstimate(product, product, partial);
            }

            sum = Vector256.Sum(partial);
        }

        for (; i < b.Length; i++)
        {
            sum += a[i] * b[i] * a[i] * b[i];
        }

        return sum;
    }

    /// <summary>a·b, one product per position.</summary>
    public static void Multiply(ReadOnlySpan<double> a, ReadOnlySpan<double> b, Span<double> products)
    {
        int i = 0;
        if (Vector256.IsHardwareAccelerated)
        {
            ref double ra = ref MemoryMarshal.GetReference(a);
            ref double rb = ref MemoryMarshal.GetReference(b);
            ref double rp = ref MemoryMarshal.GetReference(products);
            for (; i + 4 <= b.Length; i += 4)
            {
                (Vector256.LoadUnsafe(ref ra, (nuint)i) * Vector256.LoadUnsafe(ref rb, (nuint)i)).StoreUnsafe(ref rp, (nuint)i);
            }
        }

        for (; i < b.Length; i++)
        {
            products[i] = a[i] * b[i];
        }
    }

    /// <summary>Adds factor·b to a, position by position of b.</summary>
    public static void AddMultiple(Span<double> a, double factor, ReadOnlySpan<double> b)
    {
        int i = 0;
        if (Vector256.IsHardwareAccelerated)
        {
            ref double ra = ref MemoryMarshal.GetReference(a);
            ref double rb = ref MemoryMarshal.GetReference(b);
            var factors = Vector256.Create(factor);
            for (; i + 4 <= b.Length; i += 4)
            {
                (Vector256.LoadUnsafe(ref ra, (nuint)i) + (factors * Vector256.LoadUnsafe(ref rb, (nuint)i))).StoreUnsafe(ref ra, (nuint)i);
            }
        }

        for (; i < b.Length; i++)
        {
            a[i] += factor * b[i];
        }
    }
}

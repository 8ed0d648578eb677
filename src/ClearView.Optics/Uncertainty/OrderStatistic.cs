namespace ClearView.Optics.Uncertainty;

/// <summary>The k-th smallest of many values without sorting them all (Hoare's selection, median of three).</summary>
internal static class OrderStatistic
{
    /// <summary>Partitions so that position k holds the k-th smallest, smaller ones before and greater ones after it.</summary>
    /// <param name="values">The values, none NaN.</param>
    /// <param name="k">Position, from 0.</param>
    public static double Select(Span<double> values, int k)
    {
        int low = 0;
        int high = values.Length - 1;
        while (low < high)
        {
            double pivot = MedianOfThree(values[low], values[low + ((high - low) / 2)], values[high]);
            int i = low;
            int j = high;
            while (i <= j)
            {
                while (values[i] < pivot)
                {
                    i++;
                }

                while (values[j] > pivot)
                {
                    j--;
                }

                if (i <= j)
                {
                    (values[i], values[j]) = (values[j], values[i]);
                    i++;
                    j--;
                }
            }

            if (k <= j)
            {
                high = j;
            }
            else if (k >= i)
            {
                low = i;
            }
            else
            {
                return values[k];
            }
        }

        return values[k];
    }

    private static double MedianOfThree(double a, double b, double c) => Math.Max(Math.Min(a, b), Math.Min(Math.Max(a, b), c));
}

using System.Runtime.Intrinsics;

namespace ClearView.Optics.Uncertainty;

/// <summary>A number with its partial derivatives with respect to the eight <see cref="LinearFunctionals"/>: forward automatic differentiation.</summary>
/// <remarks>Every operation carries the derivative by the rules of calculus, exact to rounding; nothing is differenced.</remarks>
internal readonly struct Dual(double value, Vector512<double> gradient)
{
    public double Value { get; } = value;

    public Vector512<double> Gradient { get; } = gradient;

    public static implicit operator Dual(double constant) => new(constant, Vector512<double>.Zero);

    public static Dual operator +(Dual a, Dual b) => new(a.Value + b.Value, a.Gradient + b.Gradient);

    public static Dual operator -(Dual a, Dual b) => new(a.Value - b.Value, a.Gradient - b.Gradient);

    public static Dual operator *(Dual a, Dual b) => new(a.Value * b.Value, (a.Gradient * b.Value) + (b.Gradient * a.Value));

    public static Dual operator /(Dual a, Dual b)
    {
        double quotient = a.Value / b.Value;
        return new Dual(quotient, (a.Gradient - (b.Gradient * quotient)) / Vector512.Create(b.Value));
    }

    public static Dual Variable(double value, int index) =>
        new(value, Vector512<double>.Zero.WithElement(index, 1));

    public static Dual Sqrt(Dual a)
    {
        double root = Math.Sqrt(a.Value);
        return new Dual(root, a.Gradient * (0.5 / root));
    }

    public static Dual Cbrt(Dual a)
    {
        double root = Math.Cbrt(a.Value);
        return new Dual(root, a.Gradient * (1 / (3 * root * root)));
    }

    public static Dual Atan2(Dual y, Dual x)
    {
        double square = (x.Value * x.Value) + (y.Value * y.Value);
        return new Dual(
            Math.Atan2(y.Value, x.Value),
            ((y.Gradient * x.Value) - (x.Gradient * y.Value)) * (1 / square));
    }

    public static Dual Sin(Dual a) => new(Math.Sin(a.Value), a.Gradient * Math.Cos(a.Value));

    public static Dual Cos(Dual a) => new(Math.Cos(a.Value), a.Gradient * -Math.Sin(a.Value));

    public static Dual Exp(Dual a)
    {
        double e = Math.Exp(a.Value);
        return new Dual(e, a.Gradient * e);
    }

    public static Dual Pow(Dual a, double exponent) =>
        new(Math.Pow(a.Value, exponent), a.Gradient * (exponent * Math.Pow(a.Value, exponent - 1)));
}

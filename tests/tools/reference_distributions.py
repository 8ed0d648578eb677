"""Answers tests/ClearView.Quality.Tests in high precision, with mpmath (Debian: python3-mpmath).

One question per line of standard input: "range k df q" or "t df ncp x". One answer per line: lower and upper tail.
The integrals are those of the definitions, taken with 30 digits by adaptive tanh-sinh quadrature over many panels, so that
nothing is shared with the program under test but the definition itself.
"""
import sys

from mpmath import erfc, exp, inf, gamma, mp, mpf, quad, sqrt, linspace, npdf

mp.dps = 30


def normal(z):
    return erfc(-z / sqrt(2)) / 2


def chi_density(s, df):
    half = df / 2
    return 2 * half**half / gamma(half) * s ** (df - 1) * exp(-half * s * s)


def over_spread(function, df, step=None, scale=None):
    """The integral of function(s) * density(s), which is negligible beyond the last point; function steps at step within scale."""
    width = 1 / sqrt(2 * df)
    points = sorted({mpf(0), *(1 + width * k for k in (-16, -8, -4, -2, -1, 0, 1, 2, 4, 8, 16) if 1 + width * k > 0)})
    points += [points[-1] + 8 * width]
    first = points[1]
    points = [mpf(0), first / 64, first / 16, first / 4, *points[1:]]
    if step is not None:
        points += [p for p in (step + scale * k for k in (-16, -8, -4, 0, 4, 8, 16)) if 0 < p < points[-1]]
        points = sorted(set(points))
    return quad(lambda s: function(s) * chi_density(s, df), points, maxdegree=5)


def t_tails(df, ncp, x):
    step, scale = (ncp / x, 1 / abs(x)) if x else (None, None)
    lower = over_spread(lambda s: normal(x * s - ncp), df, step, scale)
    upper = over_spread(lambda s: normal(ncp - x * s), df, step, scale)
    return lower, upper


def range_tails(k, df, q):
    # The trapezoidal rule converges geometrically on these; the step leaves an error below 1e-25.
    step = mpf(1) / 10
    nodes = [(i * step, npdf(i * step), normal(i * step)) for i in range(-110, 111)]

    def within(w):
        return k * step * sum(d * (c - normal(z - w)) ** (k - 1) for z, d, c in nodes)

    def beyond(w):
        return 1 - within(w)

    if df == inf:
        return within(q), beyond(q)
    width = 1 / sqrt(2 * df)
    points = sorted({mpf(0), *(1 + width * j for j in (-8, -4, -2, -1, 0, 1, 2, 4, 8, 12) if 1 + width * j > 0)})
    mp.dps = 18
    upper = quad(lambda s: beyond(q * s) * chi_density(s, df), points, method="gauss-legendre", maxdegree=4)
    mp.dps = 30
    return 1 - upper, upper


for line in sys.stdin:
    kind, *numbers = line.split()
    numbers = [inf if number == "inf" else mpf(number) for number in numbers]
    lower, upper = t_tails(*numbers) if kind == "t" else range_tails(int(numbers[0]), *numbers[1:])
    print(mp.nstr(lower, 17), mp.nstr(upper, 17))

"""Tristimulus values from the tables of the Debian package colord-data, by numpy alone, for comparison.

Reads one JSON object from standard input and prints one:

    {"spectra": [{"wavelengths": [nm], "values": [fractions], "observer": "2" or "10", "illuminant": "A"|"C"|"D65"}]}
    ->  {"spectra": [[X, Y, Z]]}
    {"metamerism": [{"wavelengths": [nm], "reference": [fractions], "specimen": [fractions], "observer": as above,
                     "illuminant": of the match, "test_illuminant": under which it is tried}]}
    ->  {"metamerism": [[special metamerism index, L, a, b of the reference under the match, L, a, b under the test]]}

Written from the standards, not from the code under test: the observers go to 1 nm by Sprague's conditions (a quintic
that shares value, first and second derivative with the quartics through the five nearest points, CIE 167), solved as a
linear system; the spectrum by the cubic through the four nearest points (quadratic in the end intervals, end value held
outside: ASTM E2022, E308); then the 1 nm products are summed over 360-780 nm. The metamerism index is ΔE*ab under the
test illuminant after the multiplicative correction of CIE 15.
"""
import functools
import json
import sys

import numpy

FOLDER = "/usr/share/colord/"
FINE = numpy.arange(360, 781)
# 360-375 nm of illuminant C, which the package leaves out: from memory of the CIE table.
C_BELOW_380 = [12.9, 17.2, 21.4, 27.5]


def read(name):
    """Wavelengths and rows of a CGATS file."""
    lines = open(FOLDER + name, encoding="ascii").read().splitlines()
    head = dict(line.split(None, 1) for line in lines if line[:1].isalpha() and len(line.split(None, 1)) == 2)
    first, last, count = (float(head["SPECTRAL_" + key]) for key in ("START_NM", "END_NM", "BANDS"))
    rows = [[float(cell) for cell in line.split()] for line in lines[lines.index("BEGIN_DATA") + 1:lines.index("END_DATA")]]
    return numpy.linspace(first, last, int(count)), numpy.array(rows)


def sprague(nodes, values, at):
    """Quintic between neighbours; two points are added beyond each end by the factors that CIE 167 prints."""
    outer = numpy.array([884, -1960, 3033, -2648, 1080, -180]) / 209
    inner = numpy.array([508, -540, 488, -367, 144, -24]) / 209
    padded = numpy.concatenate([[outer @ values[:6], inner @ values[:6]], values,
                                [inner @ values[:-7:-1], outer @ values[:-7:-1]]])
    # Rows: value, first and second derivative at 0 and at 1 of a polynomial of the fifth degree.
    ends = numpy.array([[1, 0, 0, 0, 0, 0], [0, 1, 0, 0, 0, 0], [0, 0, 2, 0, 0, 0],
                        [1, 1, 1, 1, 1, 1], [0, 1, 2, 3, 4, 5], [0, 0, 2, 6, 12, 20]], dtype=float)
    result = []
    for wavelength in at:
        position = (wavelength - nodes[0]) / (nodes[1] - nodes[0])
        node = min(int(position), len(nodes) - 2)
        conditions = []
        for centre in (node + 2, node + 3):
            quartic = numpy.polyfit(numpy.arange(-2, 3), padded[centre - 2:centre + 3], 4)
            conditions += [padded[centre], quartic[3], 2 * quartic[2]]
        result.append(numpy.polyval(numpy.linalg.solve(ends, conditions)[::-1], position - node))
    return numpy.array(result)


def lagrange(nodes, values, at):
    result = []
    for wavelength in at:
        if wavelength <= nodes[0] or wavelength >= nodes[-1]:
            result.append(values[0] if wavelength <= nodes[0] else values[-1])
            continue
        below = int(numpy.searchsorted(nodes, wavelength, side="right")) - 1
        near = slice(max(below - 1, 0), min(below + 3, len(nodes)))
        # Solve for the polynomial's coefficients instead of forming Lagrange's products.
        x = (nodes[near] - wavelength) / 10
        result.append(numpy.linalg.solve(numpy.vander(x), values[near])[-1])
    return numpy.array(result)


@functools.cache
def illuminant(name):
    nodes, rows = read("illuminant/CIE-%s.sp" % name)
    if name == "A":
        return rows[0][numpy.isin(nodes, FINE)]
    if name == "C":
        nodes = numpy.concatenate([numpy.arange(360, 380, 5), nodes])
        return sprague(nodes, numpy.concatenate([numpy.array(C_BELOW_380) / 100, rows[0]]), FINE)
    return numpy.interp(FINE, nodes, rows[0])


@functools.cache
def matching_functions(name):
    nodes, rows = read({"2": "cmf/CIE1931-2deg-XYZ.cmf", "10": "cmf/CIE1964-10deg-XYZ.cmf"}[name])
    return numpy.array([sprague(nodes, row, FINE) for row in rows])


def tristimulus(case):
    observer = matching_functions(case["observer"])
    power = illuminant(case["illuminant"])
    spectrum = lagrange(numpy.array(case["wavelengths"], dtype=float), numpy.array(case["values"], dtype=float), FINE)
    return (100 * (observer * power * spectrum).sum(axis=1) / (observer[1] * power).sum()).tolist()


def lab(xyz, white):
    ratio = numpy.array(xyz) / white
    f = numpy.where(ratio > (24 / 116) ** 3, numpy.cbrt(ratio), (841 / 108) * ratio + 16 / 116)
    return numpy.array([[0, 116, 0], [500, -500, 0], [0, 200, -200]]) @ f - numpy.array([16, 0, 0])


def metamerism(case):
    def under(illuminant, values):
        return numpy.array(tristimulus({**case, "illuminant": illuminant, "values": values}))

    perfect = [1] * len(case["wavelengths"])
    match, test = case["illuminant"], case["test_illuminant"]
    corrected = under(test, case["specimen"]) * under(match, case["reference"]) / under(match, case["specimen"])
    reference = lab(under(test, case["reference"]), under(test, perfect))
    index = numpy.linalg.norm(lab(corrected, under(test, perfect)) - reference)
    return [index, *lab(under(match, case["reference"]), under(match, perfect)), *reference]


question = json.load(sys.stdin)
answers = {"spectra": tristimulus, "metamerism": metamerism}
json.dump({name: [answers[name](case) for case in cases] for name, cases in question.items()}, sys.stdout)

"""Answers questions of the tests with the Debian package python3-colormath, for comparison.

Reads one JSON object from standard input and prints one:

    {"xyz_to_lab": [{"xyz": [x, y, z], "observer": "2" or "10", "illuminant": "d65"}],   ->  [[L, a, b]]
     "delta_e": [{"one": [L, a, b], "other": [L, a, b]}],                               ->  [[CIE 1976, CIEDE2000]]
     "spectra": [{"values": [50 fractions], "observer": "2", "illuminant": "d65"}]}      ->  [[X, Y, Z]]

XYZ is on the scale on which the perfect transmitter has Y = 100. White points are the library's own (those of ASTM E308).
Spectra: 340-830 nm at 10 nm; the library sums the products of its own 10 nm tables over that range, without the
interpolation of ASTM E2022.
"""
import json
import sys

import numpy

# The library calls a function that numpy has dropped since; it only unpacks an array of one element.
if not hasattr(numpy, "asscalar"):
    numpy.asscalar = lambda array: array.item()

from colormath.color_conversions import convert_color
from colormath.color_diff import delta_e_cie1976, delta_e_cie2000
from colormath.color_objects import LabColor, SpectralColor, XYZColor


def xyz_to_lab(case):
    x, y, z = (value / 100 for value in case["xyz"])
    colour = XYZColor(x, y, z, observer=case["observer"], illuminant=case["illuminant"])
    return list(convert_color(colour, LabColor).get_value_tuple())


def delta_e(case):
    one, other = LabColor(*case["one"]), LabColor(*case["other"])
    return [float(delta_e_cie1976(one, other)), float(delta_e_cie2000(one, other))]


def spectrum_to_xyz(case):
    names = ["spec_%dnm" % wavelength for wavelength in range(340, 831, 10)]
    values = dict(zip(names, case["values"], strict=True))
    colour = SpectralColor(observer=case["observer"], illuminant=case["illuminant"], **values)
    return [100 * float(value) for value in convert_color(colour, XYZColor).get_value_tuple()]


question = json.load(sys.stdin)
answers = {"xyz_to_lab": xyz_to_lab, "delta_e": delta_e, "spectra": spectrum_to_xyz}
json.dump({name: [answers[name](case) for case in cases] for name, cases in question.items()}, sys.stdout)

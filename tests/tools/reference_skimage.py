"""Answers questions of the tests with the Debian packages python3-skimage and python3-scipy, for comparison.

Reads one JSON object from standard input and prints one:

    {"xyz_to_lab": [{"xyz": [x, y, z], "observer": "2" or "10", "illuminant": "D65"}],   ->  [[L, a, b]]
     "delta_e": [{"one": [L, a, b], "other": [L, a, b]}],                               ->  [[CIE 1976, CIEDE2000]]
     "natural_spline": [{"x": [...], "y": [...], "at": [...]}]}                          ->  [[value at each "at"]]

XYZ is on the scale on which the perfect transmitter has Y = 100. White points are the library's own.
"""
import json
import sys

import numpy
from scipy.interpolate import CubicSpline
from skimage.color import deltaE_cie76, deltaE_ciede2000, xyz2lab


def xyz_to_lab(case):
    colour = numpy.array([[case["xyz"]]], dtype=float) / 100
    return xyz2lab(colour, illuminant=case["illuminant"], observer=case["observer"])[0, 0].tolist()


def delta_e(case):
    one, other = numpy.array(case["one"], dtype=float), numpy.array(case["other"], dtype=float)
    return [float(deltaE_cie76(one, other)), float(deltaE_ciede2000(one, other))]


def natural_spline(case):
    return CubicSpline(case["x"], case["y"], bc_type="natural")(case["at"]).tolist()


question = json.load(sys.stdin)
answers = {"xyz_to_lab": xyz_to_lab, "delta_e": delta_e, "natural_spline": natural_spline}
json.dump({name: [answers[name](case) for case in cases] for name, cases in question.items()}, sys.stdout)

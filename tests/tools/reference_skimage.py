"""Answers questions of the tests with the Debian packages python3-skimage and python3-scipy, for comparison.

Reads one JSON object from standard input and prints one:

    {"xyz_to_lab": [{"xyz": [x, y, z], "observer": "2" or "10", "illuminant": "D65"}],   ->  [[L, a, b]]
     "delta_e": [{"one": [L, a, b], "other": [L, a, b]}],                               ->  [[CIE 1976, CIEDE2000]]
     "weighted": [{"one": [L, a, b], "other": [L, a, b], "factors": [kL, kC, kH, l, c]}],
                                                                                        ->  [[CIE94, CMC(l:c)]]
     "xyz_to_luv": [as xyz_to_lab],                                                     ->  [[L, u, v]]
     "screen": [{"xyz": [x, y, z]}],                                                    ->  [[red, green, blue] of sRGB, 0-1, cut]
     "natural_spline": [{"x": [...], "y": [...], "at": [...]}]}                          ->  [[value at each "at"]]

"one" is the reference of the differences. "screen" takes XYZ under D65 and the 2° observer.
XYZ is on the scale on which the perfect transmitter has Y = 100. White points are the library's own.
"""
import json
import sys

import numpy
from scipy.interpolate import CubicSpline
from skimage.color import deltaE_cie76, deltaE_ciede94, deltaE_ciede2000, deltaE_cmc, xyz2lab, xyz2luv, xyz2rgb


def xyz_to_lab(case):
    colour = numpy.array([[case["xyz"]]], dtype=float) / 100
    return xyz2lab(colour, illuminant=case["illuminant"], observer=case["observer"])[0, 0].tolist()


def delta_e(case):
    one, other = numpy.array(case["one"], dtype=float), numpy.array(case["other"], dtype=float)
    return [float(deltaE_cie76(one, other)), float(deltaE_ciede2000(one, other))]


def weighted(case):
    one, other = numpy.array(case["one"], dtype=float), numpy.array(case["other"], dtype=float)
    lightness, chroma, hue, cmc_lightness, cmc_chroma = case["factors"]
    return [float(deltaE_ciede94(one, other, kH=hue, kC=chroma, kL=lightness)),
            float(deltaE_cmc(one, other, kL=cmc_lightness, kC=cmc_chroma))]


def xyz_to_luv(case):
    colour = numpy.array([[case["xyz"]]], dtype=float) / 100
    return xyz2luv(colour, illuminant=case["illuminant"], observer=case["observer"])[0, 0].tolist()


def screen(case):
    return xyz2rgb(numpy.array([[case["xyz"]]], dtype=float) / 100)[0, 0].tolist()


def natural_spline(case):
    return CubicSpline(case["x"], case["y"], bc_type="natural")(case["at"]).tolist()


question = json.load(sys.stdin)
answers = {"xyz_to_lab": xyz_to_lab, "xyz_to_luv": xyz_to_luv, "delta_e": delta_e, "weighted": weighted,
           "screen": screen, "natural_spline": natural_spline}
json.dump({name: [answers[name](case) for case in cases] for name, cases in question.items()}, sys.stdout)

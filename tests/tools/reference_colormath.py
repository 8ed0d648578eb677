"""Answers questions of the tests with the Debian package python3-colormath, for comparison.

Reads one JSON object from standard input and prints one:

    {"xyz_to_lab": [{"xyz": [x, y, z], "observer": "2" or "10", "illuminant": "d65"}],   ->  [[L, a, b]]
     "delta_e": [{"one": [L, a, b], "other": [L, a, b]}],                               ->  [[CIE 1976, CIEDE2000]]
     "weighted": [{"one": [L, a, b], "other": [L, a, b], "factors": [kL, kC, kH, l, c]}],
                                                                                        ->  [[CIE94, CMC(l:c)]]
     "xyz_to_luv": [as xyz_to_lab],                                                     ->  [[L, u, v]]
     "screen": [{"xyz": [x, y, z], "white": [x, y, z]}],             ->  [[red, green, blue] of sRGB, 0-1, not cut]
     "spectra": [{"values": [50 fractions], "observer": "2", "illuminant": "d65"}]}      ->  [[X, Y, Z]]

"one" is the reference of the differences. "screen" adapts by Bradford to the library's own D65.
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

from colormath.chromatic_adaptation import apply_chromatic_adaptation
from colormath.color_conversions import convert_color
from colormath.color_diff import delta_e_cie1976, delta_e_cie1994, delta_e_cie2000, delta_e_cmc
from colormath.color_objects import LabColor, LuvColor, SpectralColor, XYZColor, sRGBColor


def convert_xyz(case, space):
    x, y, z = (value / 100 for value in case["xyz"])
    colour = XYZColor(x, y, z, observer=case["observer"], illuminant=case["illuminant"])
    return list(convert_color(colour, space).get_value_tuple())


def xyz_to_lab(case):
    return convert_xyz(case, LabColor)


def xyz_to_luv(case):
    return convert_xyz(case, LuvColor)


def delta_e(case):
    one, other = LabColor(*case["one"]), LabColor(*case["other"])
    return [float(delta_e_cie1976(one, other)), float(delta_e_cie2000(one, other))]


def weighted(case):
    one, other = LabColor(*case["one"]), LabColor(*case["other"])
    lightness, chroma, hue, cmc_lightness, cmc_chroma = case["factors"]
    return [float(delta_e_cie1994(one, other, K_L=lightness, K_C=chroma, K_H=hue)),
            float(delta_e_cmc(one, other, pl=cmc_lightness, pc=cmc_chroma))]


def screen(case):
    x, y, z = (value / 100 for value in case["xyz"])
    white = [value / 100 for value in case["white"]]
    adapted = apply_chromatic_adaptation(x, y, z, orig_illum=white, targ_illum="d65")
    return list(convert_color(XYZColor(*adapted, observer="2", illuminant="d65"), sRGBColor).get_value_tuple())


def spectrum_to_xyz(case):
    names = ["spec_%dnm" % wavelength for wavelength in range(340, 831, 10)]
    values = dict(zip(names, case["values"], strict=True))
    colour = SpectralColor(observer=case["observer"], illuminant=case["illuminant"], **values)
    return [100 * float(value) for value in convert_color(colour, XYZColor).get_value_tuple()]


question = json.load(sys.stdin)
answers = {"xyz_to_lab": xyz_to_lab, "xyz_to_luv": xyz_to_luv, "delta_e": delta_e, "weighted": weighted,
           "screen": screen, "spectra": spectrum_to_xyz}
json.dump({name: [answers[name](case) for case in cases] for name, cases in question.items()}, sys.stdout)

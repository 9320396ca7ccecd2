"""Dimensions of shape, weight and strength. Symbols are canonical: see `symbols.py`."""

from __future__ import annotations

from math import inf

from tidestead.core.units.dimensions import Dimension

POUND_FORCES = tuple(
    (symbol, symbol.replace("lb", "lbf"))
    for symbol in (
        "lb", "lb/in", "lb/ft", "lb/in2", "lb/ft2", "lb/in3", "lb/ft3", "lb ft", "ft lb", "lb in", "in lb",
        "lb ft/ft",
        "ft lb/ft", "lb in/ft", "in lb/ft", "lb in/in", "in lb/in", "lb in2", "lb ft2", "lb in2/ft",
        "lb in2/in",
        "lb ft/rad", "lb in/rad",
    )
)  # fmt: skip
"""Where loads and strengths are meant, a pound is a pound-force, as in the tables of the US trade."""

MECHANICS = (
    Dimension(
        "length", "m", "m, mm, cm", "in, ft", '"1.2 m" or "4 ft 6 in"',
        rare="\", ', yd, um, km", sums=True, guess=((10, "m"), (100, "in"), (inf, "mm")),
    ),
    Dimension(
        "film", "m", "um, mm", "mil, in", '"1200 micron" or "47 mil"', rare='thou, ", cm, m',
        said="film thickness"
    ),
    Dimension("area", "m2", "m2, cm2, mm2", "ft2, in2", '"1.5 m2" or "16 ft2"', rare="yd2"),
    Dimension(
        "volume", "m3", "m3, L, mL", "US gal, ft3, in3, US fl oz", '"850 L" or "225 US gal"',
        rare="cL, dL, cm3, cc, mm3, US qt, US pt, imp gal, imp qt, imp pt, imp fl oz, yd3", guess=((inf,
        "L"),),
    ),
    Dimension("mass", "kg", "kg, g, mg", "lb, oz", '"25 kg" or "55 lb"', rare="t", sums=True),
    Dimension(
        "density", "kg/m3", "kg/m3, g/cm3", "lb/ft3, pcf", '"1025 kg/m3" or "64 lb/ft3"',
        rare="g/mL, kg/L, t/m3, g/L, lb/in3, lb/US gal, lb/imp gal",
    ),
    Dimension(
        "mass_per_area", "kg/m2", "kg/m2, g/m2", "lb/ft2, oz/yd2, oz/ft2", '"9.5 kg/m2" or "2 lb/ft2"',
        said="weight per area",
    ),
    Dimension(
        "mass_per_length", "kg/m", "kg/m, g/m", "lb/ft", '"3.2 kg/m" or "2.1 lb/ft"', rare="lb/in",
        said="weight per length",
    ),
    Dimension(
        "pressure", "Pa", "Pa, kPa, MPa, GPa", "psi, psf, ksi", '"12 kPa" or "250 psf"',
        rare="N/m2, kN/m2, N/mm2, kN/mm2, bar, mbar, hPa, atm, mH2O, cmH2O, mmH2O, mmHg, lb/in2, lbf/in2, "
        "lb/ft2, lbf/ft2, kip/in2, inH2O, ftH2O, inHg",
        guess=((inf, "kPa"),), means=POUND_FORCES,
    ),
    Dimension(
        "force", "N", "N, kN", "lbf, kip", '"4.5 kN" or "1000 lbf"', rare="lb, MN, kgf", guess=((inf, "kN"),),
        means=POUND_FORCES,
    ),
    Dimension(
        "line_load", "N/m", "N/m, kN/m", "lb/ft, lb/in, kip/ft", '"6.8 kN/m" or "470 lb/ft"',
        rare="N/mm, MN/m, kN/mm, lbf/ft, plf, lbf/in, pli, kip/in", said="load per length",
        guess=((inf, "kN/m"),), means=POUND_FORCES,
    ),
    Dimension(
        "moment", "N m", "N m, kN m", "lbf ft, lbf in", '"250 N m" or "180 lbf ft"',
        rare="Nm, kNm, N mm, Nmm, lb ft, ft lbf, ft lb, lb in, in lbf, in lb, kip ft, ft kip, kip in, in kip",
        means=POUND_FORCES,
    ),
    Dimension(
        "moment_per_length", "N m/m", "N m/m, kN m/m", "lbf in/ft, lbf ft/ft",
        '"860 N m/m" or "2300 lb-in/ft"',
        rare="Nm/m, kNm/m, N mm/mm, lb ft/ft, ft lbf/ft, ft lb/ft, lb in/ft, in lbf/ft, in lb/ft, lbf in/in, "
        "lb in/in, in lbf/in, in lb/in",
        means=POUND_FORCES,
    ),
    Dimension(
        "bending_stiffness", "N m2", "N m2, kN m2", "lbf in2, lbf ft2", '"52 kN m2" or "1.8e7 lb-in2"',
        rare="N mm2, lb in2, lb ft2", means=POUND_FORCES,
    ),
    Dimension(
        "bending_stiffness_per_length", "N m2/m", "N m2/m, kN m2/m", "lbf in2/ft",
        '"3.4 kN m2/m" or "350000 lb-in2/ft"',
        rare="N mm2/mm, N mm2/m, lbf in2/in, lb in2/ft, lb in2/in", means=POUND_FORCES,
    ),
    Dimension(
        "axial_stiffness", "N", "N, kN, MN", "lbf, kip", '"85 MN" or "19000 kip"', rare="lb",
        means=POUND_FORCES
    ),
    Dimension(
        "spring", "N/m", "N/m, kN/m, MN/m", "lb/in, lb/ft, kip/in", '"1200 N/mm" or "6850 lb/in"',
        rare="N/mm, kN/mm, lbf/in, lbf/ft, pli, kip/ft", said="spring stiffness", means=POUND_FORCES,
    ),
    Dimension(
        "rotational_spring", "N m/rad", "N m/rad, kN m/rad", "lbf in/rad, lbf ft/rad",
        '"15 kN m/rad" or "132000 lb-in/rad"',
        rare="Nm/rad, kNm/rad, lb in/rad, lb ft/rad", means=POUND_FORCES,
    ),
    Dimension(
        "subgrade", "N/m3", "N/m3, kN/m3, MN/m3", "lb/in3, lb/ft3", '"30 MN/m3" or "110 lb/in3"',
        rare="N/mm3, pci, lbf/in3, lbf/ft3, psf/ft", said="bedding stiffness", means=POUND_FORCES,
    ),
    Dimension("second_moment", "m4", "m4, cm4, mm4", "in4", '"1200 cm4" or "28.8 in4"', rare="ft4"),
    Dimension(
        "second_moment_per_length", "m4/m", "m4/m, cm4/m, mm4/m", "in4/ft", '"48 cm4/m" or "0.35 in4/ft"',
        rare="mm4/mm, in4/in",
    ),
    Dimension("section_modulus", "m3", "m3, cm3, mm3", "in3", '"165 cm3" or "10 in3"', rare="ft3"),
    Dimension(
        "section_modulus_per_length", "m3/m", "m3/m, cm3/m, mm3/m", "in3/ft", '"54 cm3/m" or "1 in3/ft"',
        rare="mm3/mm, in3/in",
    ),
    Dimension(
        "area_per_length", "m2/m", "m2/m, cm2/m, mm2/m", "in2/ft", '"12 cm2/m" or "0.57 in2/ft"',
        rare="mm2/mm, in2/in, ft2/ft",
    ),
    Dimension(
        "per_length", "1/m", "1/m, 1/mm", "1/ft, 1/in", '"4 per m" or "1.2 per ft"', said="number per length"
    ),
    Dimension("angle", "rad", "deg", "deg", '"45 deg"', rare="°, rad, mrad"),
)  # fmt: skip
"""Every dimension of this sort."""

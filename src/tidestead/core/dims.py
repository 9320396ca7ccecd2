"""The unit of every number, as part of its type.

`depth: Metre` says that depth is a float in metres. House tests, the editor and the report read the unit
from here; nobody parses prose. Numpy arrays broadcast through every calculator unless its docstring says not.
"""

from __future__ import annotations

from typing import Annotated, Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

Array: TypeAlias = NDArray[np.float64]

Metre = Annotated[float, "m"]
SquareMetre = Annotated[float, "m2"]
CubicMetre = Annotated[float, "m3"]
Metre4 = Annotated[float, "m4"]
SquareMetrePerMetre = Annotated[float, "m2/m"]
CubicMetrePerMetre = Annotated[float, "m3/m"]
SquareMetrePerM3 = Annotated[float, "m2/m3"]
Metre4PerMetre = Annotated[float, "m4/m"]
MetrePerSecond = Annotated[float, "m/s"]
MetrePerSecond2 = Annotated[float, "m/s2"]
CubicMetrePerSecond = Annotated[float, "m3/s"]
SecondPerSquareMetre = Annotated[float, "s/m2"]
PascalSecond = Annotated[float, "Pa s"]
SquareMetrePerSecond = Annotated[float, "m2/s"]
Watt = Annotated[float, "W"]
MolePerM3 = Annotated[float, "mol/m3"]
MolePerKg = Annotated[float, "mol/kg"]
MicromolePerKg = Annotated[float, "umol/kg"]
MolePerKgAtmosphere = Annotated[float, "mol/(kg atm)"]
Mole2PerKg2 = Annotated[float, "mol2/kg2"]
GramPerMole = Annotated[float, "g/mol"]
Microatmosphere = Annotated[float, "uatm"]
PH = Annotated[float, "1"]
"""Minus the power of ten of hydrogen ions, or of a constant they take part in."""
MolePerM3Day = Annotated[float, "mol/(m3 day)"]
GramPerM3Day = Annotated[float, "g/(m3 day)"]
CubicMetrePerDay = Annotated[float, "m3/day"]
PerDay = Annotated[float, "1/day"]
GramPerM3 = Annotated[float, "g/m3"]
GramPerHour = Annotated[float, "g/h"]
GramPerDay = Annotated[float, "g/day"]
GramPerKgDay = Annotated[float, "g/(kg day)"]
GramPerM2Day = Annotated[float, "g/(m2 day)"]
PracticalSalinityPerDay = Annotated[float, "psu/day"]
SiemensPerMetre = Annotated[float, "S/m"]
Gram = Annotated[float, "g"]
CubicMetrePerHour = Annotated[float, "m3/h"]
JoulePerM2 = Annotated[float, "J/m2"]
WattPerM2 = Annotated[float, "W/m2"]
PerSecond = Annotated[float, "1/s"]
PerMetre = Annotated[float, "1/m"]
Newton = Annotated[float, "N"]
NewtonPerMetre = Annotated[float, "N/m"]
NewtonPerMetre2 = Annotated[float, "N/m2"]
NewtonPerMetre3 = Annotated[float, "N/m3"]
NewtonMetre = Annotated[float, "N m"]
NewtonMetrePerMetre = Annotated[float, "N m/m"]
NewtonMetre2 = Annotated[float, "N m2"]
NewtonMetre2PerMetre = Annotated[float, "N m2/m"]
Pascal = Annotated[float, "Pa"]
KgPerM3 = Annotated[float, "kg/m3"]
Kilogram = Annotated[float, "kg"]
KgPerM2 = Annotated[float, "kg/m2"]
Celsius = Annotated[float, "degC"]
Kelvin = Annotated[float, "K"]
PerKelvin = Annotated[float, "1/K"]
KelvinWeek = Annotated[float, "K week"]
Ratio = Annotated[float, "1"]
Percent = Annotated[float, "%"]
Radian = Annotated[float, "rad"]
Second = Annotated[float, "s"]
Hour = Annotated[float, "h"]
Day = Annotated[float, "day"]
GramPerKg = Annotated[float, "g/kg"]
PracticalSalinity = Annotated[float, "psu"]
SquareMetreKelvinPerWatt = Annotated[float, "m2 K/W"]
WattPerM2K = Annotated[float, "W/(m2 K)"]
WattPerMetreKelvin = Annotated[float, "W/(m K)"]
WattPerKelvin = Annotated[float, "W/K"]
JoulePerKelvin = Annotated[float, "J/K"]
JoulePerM3Kelvin = Annotated[float, "J/(m3 K)"]
JoulePerM2Kelvin = Annotated[float, "J/(m2 K)"]
Joule = Annotated[float, "J"]
JoulePerKg = Annotated[float, "J/kg"]
JoulePerKgKelvin = Annotated[float, "J/(kg K)"]
KgPerSecond = Annotated[float, "kg/s"]
KgPerM2Second = Annotated[float, "kg/(m2 s)"]
PascalPerKelvin = Annotated[float, "Pa/K"]
LightFlow = Annotated[float, "umol/(m2 s)"]
"""Photons for plants, 400 to 700 nm, in millionths of a mole."""
DailyLight = Annotated[float, "mol/(m2 day)"]
MicromolePerJoule = Annotated[float, "umol/J"]
Volt = Annotated[float, "V"]
Ampere = Annotated[float, "A"]
AmperePerWatt = Annotated[float, "A/W"]
OhmMetre = Annotated[float, "ohm m"]
OhmPerMetre = Annotated[float, "ohm/m"]
CubicMetrePerJoule = Annotated[float, "m3/J"]
Degree = Annotated[float, "deg"]
Count = Annotated[int, "count"]

G: MetrePerSecond2 = 9.80665
"""Standard acceleration of free fall. Source: 3rd CGPM (1901), exact by definition."""


def unit_of(annotation: Any) -> str | None:
    """The unit written into an annotation, or None where it carries none."""
    metadata = getattr(annotation, "__metadata__", ())
    for item in metadata:
        if isinstance(item, str):
            return item
    return None

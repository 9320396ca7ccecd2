"""What was read of salinity, on which scale, and how it was understood."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from tidestead.core.lent import Meant, meant
from tidestead.core.units.showing import echo

SaltKind: TypeAlias = Literal["psu", "g/kg", "sg", "mS/cm", "sea", "NaCl", "nD"]
"""sea and NaCl: refractometers with a scale for seawater and for sodium chloride. nD: a refractive index."""


@dataclass(frozen=True)
class SalinityReading:
    """What was read, on which scale, with the temperatures in degree Celsius that it needs.

    `sample_c`: of the water as it was read; None for a refractometer or conductivity meter that compensates.
    `reference_c`: that a hydrometer is made for, or that conductivity is led back to. `slope`: along which, 1/K.
    """

    kind: SaltKind
    value: float
    sample_c: float | None = None
    reference_c: float | None = None
    slope: float | None = None

    @property
    def meant(self) -> Meant:
        """The practical salinity. Raises ImpossibleInput where no water reads so."""
        return meant(self)

    @property
    def understood(self) -> str:
        """How it was understood, in words."""
        if self.kind == "psu":
            return f"{self.value:g} on the practical salinity scale"
        if self.kind == "g/kg":
            return f"{self.value:g} grams of salt per kilogram of water (ppt is taken as that)"
        if self.kind == "sg":
            return (
                f"specific gravity {self.value:g}: water at {_degrees(self.sample_c)} "
                f"against pure water at {_degrees(self.reference_c)}"
            )
        return self._conductivity() if self.kind == "mS/cm" else self._refraction()

    def _conductivity(self) -> str:
        begun = f"conductivity {self.value:.5g} mS/cm"
        if self.reference_c is None:
            return f"{begun} as it is in water of {_degrees(self.sample_c)}, not led back"
        begun += f" led back to {_degrees(self.reference_c)}"
        if self.sample_c is None:
            return begun
        along = "" if self.slope is None else f" along {100.0 * self.slope:.4g} % a kelvin"
        return f"{begun} from {_degrees(self.sample_c)}{along}"

    def _refraction(self) -> str:
        at = "" if self.sample_c is None else f" in water of {_degrees(self.sample_c)}"
        if self.kind == "nD":
            return f"refractive index {self.value:.6g}{at}"
        scale = "a seawater scale" if self.kind == "sea" else "a scale for sodium chloride"
        way = f"{at}, not compensated" if at else ", compensated"
        return f"{self.value:g} ppt on a refractometer with {scale}{way}"


def _degrees(temp_c: float | None) -> str:
    return "" if temp_c is None else echo(temp_c, "degC")
